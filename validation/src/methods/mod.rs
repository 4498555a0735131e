//! The register: one function a method, from inputs to named outputs.
//!
//! A method calls one function of the program, or the few that a source's example needs, and does
//! no arithmetic of its own beyond units and ratios.

mod closed;
mod coupons;
mod cure;
mod double_lap;
mod fatigue;
mod rivet;
mod round;
mod squeeze;
mod strip;
mod to_failure;

use quantity::Kind;

use crate::error::{CaseError, MethodError};
use crate::inputs::Inputs;

/// From inputs to outputs.
pub type Method = fn(&Inputs<'_>) -> Result<Vec<Output>, MethodError>;

/// A number that a method gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Output {
    /// Its name.
    pub name: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// The unit it is shown in; the same size as the kind's base unit.
    pub unit: &'static str,
    /// The value in that unit.
    pub value: f64,
}

/// Every method by its name.
pub const METHODS: &[(&str, Method)] = &[
    ("activation energy from two times", cure::activation_energy),
    ("Anderson-Darling fit", coupons::goodness_of_fit),
    ("Arrhenius rate", cure::arrhenius_rate),
    ("Basquin line", fatigue::life),
    ("bearing factor in sheet", rivet::bearing_factor_in_sheet),
    ("bearing in a wall", rivet::bearing),
    ("Bigwood-Crocombe peel", closed::bigwood_crocombe),
    ("change of mean", coupons::change_of_mean),
    ("characteristic factor", coupons::characteristic_factor),
    ("constrained modulus", round::constrained_modulus),
    ("DiBenedetto glass transition", cure::dibenedetto),
    ("disc under eccentric pull", round::disc),
    ("elastic double lap", double_lap::elastic),
    ("failure pattern codes", coupons::failure_pattern_codes),
    ("failure pattern", coupons::failure_pattern),
    ("Goland-Reissner lap", closed::goland_reissner),
    ("Hart-Smith double lap", double_lap::plastic),
    ("Hart-Smith edge moment", closed::hart_smith_edge_moment),
    ("Hart-Smith end peel", double_lap::end_peel),
    ("Hart-Smith overlap", double_lap::overlap),
    ("Huth fastener", rivet::huth),
    ("k-sample test", coupons::k_sample),
    ("Kamal-Sourour cure", cure::kamal_sourour),
    ("Lee-Loos-Springer cure", cure::lee_loos_springer),
    ("least rivet distances", rivet::least_distances),
    ("least sample for a rank", coupons::least_sample_for_rank),
    ("Levene test", coupons::levene),
    ("lower bound", coupons::lower_bound),
    ("maximum normed residual", coupons::normed_residual),
    ("non-central t", coupons::noncentral_t),
    ("nonparametric bound", coupons::nonparametric_bound),
    ("nonparametric rank", coupons::nonparametric_rank),
    ("rainflow count", fatigue::count),
    ("rivet splice", rivet::splice),
    ("sample", coupons::sample),
    ("solid rivet practice", rivet::solid_practice),
    ("solid rivet", rivet::solid),
    ("squeezed disc", squeeze::disc),
    ("squeezed drop", squeeze::drop),
    ("squeezed strip", squeeze::strip),
    ("strip lap", strip::lap),
    ("strip on a base to failure", to_failure::on_a_base),
    ("Swift fastener", rivet::swift),
    ("tolerance factor", coupons::tolerance_factor),
    ("Tsai-Oplinger-Morton lap", closed::tsai_oplinger_morton),
    ("tube in torsion", round::torsion),
    ("Volkersen lap", closed::volkersen),
    ("working time", cure::working_time),
];

/// The method of that name.
///
/// # Errors
///
/// [`CaseError::UnknownMethod`].
pub fn named(name: &str) -> Result<Method, CaseError> {
    METHODS.iter().find(|(known, _)| *known == name).map(|(_, method)| *method).ok_or_else(|| {
        CaseError::UnknownMethod {
            found: name.to_owned(),
            known: METHODS.iter().map(|(known, _)| *known).collect(),
        }
    })
}

impl Output {
    /// A quantity in its kind's base unit.
    fn new(name: &'static str, kind: Kind, value: f64) -> Self {
        Self { name, kind, unit: kind.base_unit(), value }
    }

    /// A number without unit.
    fn number(name: &'static str, value: f64) -> Self {
        Self::new(name, Kind::Factor, value)
    }

    /// A stress, MPa.
    fn stress(name: &'static str, value_mpa: f64) -> Self {
        Self::new(name, Kind::Stress, value_mpa)
    }

    /// The same under another name of its unit, such as N/mm² for a stiffness per width.
    fn shown_in(self, unit: &'static str) -> Self {
        Self { unit, ..self }
    }
}

/// A count as a number.
fn count(name: &'static str, count: usize) -> Result<Output, MethodError> {
    let count = u32::try_from(count).map_err(|_| MethodError::NoAnswer { what: name })?;
    Ok(Output::number(name, f64::from(count)))
}
