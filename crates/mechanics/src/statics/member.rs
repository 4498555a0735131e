//! A straight member and its axes.

use crate::failure::{self, Failure};

/// A point (mm) or a vector in the vehicle's or in a member's axes.
pub type Vector = [f64; 3];

/// A direction within this angle (rad) of the member's axis is no `up`: what is left of it is rounding.
const LEAST_SINE: f64 = 1e-6;

/// A straight member with its local axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    from: Vector,
    length: f64,
    axes: [Vector; 3],
}

impl Member {
    /// A member from one point to another (mm, vehicle axes); local z is `up` made normal to it, local
    /// y = z × x.
    ///
    /// # Errors
    ///
    /// [`Failure::NotFinite`]; [`Failure::NoDirection`] where the points coincide or `up` lies along the
    /// member.
    pub fn new(from: Vector, to: Vector, up: Vector) -> Result<Self, Failure> {
        for (argument, vector) in [("member's start", from), ("member's end", to), ("member's up", up)] {
            finite(argument, vector)?;
        }
        let span = [0, 1, 2].map(|k| to[k] - from[k]);
        let length = failure::finite("member's length", norm(span))?;
        let size = norm(from).max(norm(to));
        if length <= 1e-12 * size {
            return Err(Failure::NoDirection { what: "the member's axis: it starts where it ends" });
        }
        let x = span.map(|c| c / length);
        let rise = norm(up);
        let up = if rise > 0.0 { up.map(|c| c / rise) } else { up };
        let along = dot(up, x);
        let normal = [0, 1, 2].map(|k| up[k] - along * x[k]);
        let sine = norm(normal);
        if sine <= LEAST_SINE {
            return Err(Failure::NoDirection {
                what: "the member's up: it is zero or lies along the member",
            });
        }
        let z = normal.map(|c| c / sine);
        Ok(Self { from, length, axes: [x, cross(z, x), z] })
    }

    /// Length, mm.
    pub fn length_mm(&self) -> f64 {
        self.length
    }

    /// The unit vectors of local x, y and z in vehicle axes.
    pub fn axes(&self) -> [Vector; 3] {
        self.axes
    }

    /// A vector of the vehicle's axes in the member's.
    pub fn turn(&self, vector: Vector) -> Vector {
        self.axes.map(|axis| dot(axis, vector))
    }

    /// A point of the vehicle's axes in the member's, whose origin is `from`.
    pub fn place(&self, point_mm: Vector) -> Vector {
        self.turn([0, 1, 2].map(|k| point_mm[k] - self.from[k]))
    }
}

pub(super) fn finite(argument: &'static str, vector: Vector) -> Result<(), Failure> {
    vector.into_iter().try_for_each(|c| failure::finite(argument, c).map(|_| ()))
}

fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn norm(a: Vector) -> f64 {
    libm::hypot(libm::hypot(a[0], a[1]), a[2])
}

pub(super) fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}
