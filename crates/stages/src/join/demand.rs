//! What a load case demands of a lap.

use assessment::{Known, Lack};
use job::tables::{Lap, Load, LoadKind, Method, Tables};
use job::{Absent, Needed};

/// The load factor of EN 1990:2002 for one variable action, which EN 1999-1-1 takes over (from memory).
const VARIABLE_ACTION: f64 = 1.5;

/// Forces of a load case on a lap, as written, and the factor to be put on them.
pub(super) struct Demand {
    /// Force along the overlap, N.
    pub(super) axial_n: f64,
    /// Force along the width, N.
    pub(super) shear_n: f64,
    /// Width, mm.
    pub(super) width_mm: f64,
    /// Overlap, mm.
    pub(super) overlap_mm: f64,
}

impl Demand {
    /// The forces of a case on a joint; a direction that is not given carries nothing, but one must be given.
    pub(super) fn of(lap: &Lap, load: &Load) -> Known<Self> {
        let (width, overlap, ()) = (lap.width.need(), lap.overlap.need(), some_force(load)).need_all()?;
        Ok(Self {
            axial_n: load.axial.get().map_or(0.0, |force| force.n()),
            shear_n: load.shear.get().map_or(0.0, |force| force.n()),
            width_mm: width.mm(),
            overlap_mm: overlap.mm(),
        })
    }

    /// Load per width, N/mm: the resultant of both directions.
    pub(super) fn line_load_n_mm(&self) -> f64 {
        self.axial_n.hypot(self.shear_n) / self.width_mm
    }

    /// Load over area, MPa.
    pub(super) fn mean_shear_mpa(&self) -> f64 {
        self.line_load_n_mm() / self.overlap_mm
    }

    /// Whether there is any load.
    pub(super) fn is_load(&self) -> bool {
        self.line_load_n_mm() > 0.0
    }
}

fn some_force(load: &Load) -> Result<(), Absent> {
    match (load.axial.get(), load.shear.get()) {
        (None, None) => Err(Absent { keys: vec![load.axial.key.clone()] }),
        _ => Ok(()),
    }
}

/// Whether something is required of the joint under this load.
pub(super) fn is_required(load: &Load) -> bool {
    load.kind.get() != Some(&LoadKind::Test)
}

/// The factor on the load, and where it comes from.
pub(super) fn load_factor(load: &Load, tables: &Tables) -> Known<(f64, &'static str)> {
    if let Some(factor) = load.factor.get() {
        return Ok((*factor, "load factor of the case"));
    }
    match load.kind.get() {
        Some(LoadKind::Ultimate) => Ok((1.0, "an ultimate load has its factor in it")),
        Some(LoadKind::Test) => Ok((1.0, "a test load is taken as it is")),
        // A load that does not say what it is for is taken for a limit load: the severer reading.
        Some(LoadKind::Limit) | None => match method(tables)? {
            Method::En1999 => Ok((VARIABLE_ACTION, "load factor of the method")),
            Method::Own => Err(Lack::Missing { keys: vec![load.factor.key.clone()] }),
        },
    }
}

/// The method of the job.
pub(super) fn method(tables: &Tables) -> Known<Method> {
    let head = tables.job.need()?;
    Ok(*head.method.need()?)
}
