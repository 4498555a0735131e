//! What every form of joint has: a name, an adhesive, a bondline, surfaces, and load cases.

use assessment::{Basis, Finding, Known, Lack, Stage};
use job::tables::{Adhesive, LoadKind, Method, Spectrum, Surface, Tables};
use job::{Entry, Job, Place};
use quantity::Length;

use super::adhesive::Data;
use super::ends::Ends;

/// The load factor of EN 1990:2002 for one variable action, which EN 1999-1-1 takes over (from memory).
const VARIABLE_ACTION: f64 = 1.5;

/// A joint, whatever its form.
#[derive(Clone)]
pub(super) struct Subject<'j> {
    pub(super) name: &'j str,
    pub(super) tables: &'j Tables,
    /// The adhesive, by name.
    pub(super) adhesive: &'j Entry<String>,
    /// Two complete tables of the adhesive, where the job does not give its values.
    pub(super) ends: Option<&'j Ends>,
    /// The bondline that governs, mm.
    pub(super) bondline_mm: Known<f64>,
    /// The overlap, where the form has one.
    pub(super) overlap: Option<&'j Entry<Length>>,
    /// The faying surfaces.
    pub(super) surface: &'j Entry<Surface>,
    /// Where loads would be given.
    pub(super) loads_key: String,
    /// Where the joint stands in the file.
    pub(super) place: &'j Place,
}

impl<'j> Subject<'j> {
    /// The adhesive's table.
    pub(super) fn adhesive(&self) -> Known<&'j Adhesive> {
        Ok(self.tables.adhesives.referred(self.adhesive)?)
    }

    /// The adhesive's values.
    pub(super) fn data(&self) -> Known<Data> {
        self.adhesive().map(|adhesive| Data::of(adhesive, self.ends))
    }

    /// A finding about this joint.
    pub(super) fn finding(&self, what: &str, basis: Basis) -> Finding {
        Finding {
            place: Some(self.place.clone()),
            ..Finding::new(Stage::Join, format!("join.{}.{what}", self.name), self.name, basis)
        }
    }

    /// A finding about this joint under a load case.
    pub(super) fn under(&self, case: &Case<'_>, what: &str, basis: Basis) -> Finding {
        Finding {
            case: Some(case.name.to_owned()),
            place: Some(case.place.clone()),
            ..Finding::new(Stage::Join, format!("join.{}.{}.{what}", self.name, case.name), self.name, basis)
        }
    }

    /// A joint without a load case: nothing can be told of it.
    pub(super) fn without_load(&self) -> Finding {
        let lack = Lack::Missing { keys: vec![self.loads_key.clone()] };
        let statement =
            format!("No load is given for {}, so nothing can be said of its strength.", self.name);
        self.finding("load", Basis::YourData("loads of the joint")).unknown(statement, lack)
    }
}

/// A load case of a joint, whatever its loads.
pub(super) struct Case<'j> {
    pub(super) name: &'j str,
    /// What the load is for.
    pub(super) kind: Option<LoadKind>,
    /// The factor that replaces the method's.
    pub(super) factor: &'j Entry<f64>,
    pub(super) place: &'j Place,
    pub(super) service: InService<'j>,
}

/// How often a load comes, and what of it stays on.
#[derive(Clone, Copy)]
pub(super) struct InService<'j> {
    /// How often it comes, where the job says so.
    pub(super) spectrum: Option<&'j Spectrum>,
    /// The log that the spectrum names, as shares of the load.
    pub(super) log: &'j [f64],
    /// The share that stays on, where the job says so.
    pub(super) lasting: Option<f64>,
}

impl<'j> InService<'j> {
    /// What a load says of it.
    pub(super) fn of(job: &'j Job, spectrum: Option<&'j Entry<Spectrum>>, lasting: &Entry<f64>) -> Self {
        let spectrum = spectrum.and_then(Entry::get);
        let log = spectrum.and_then(|spectrum| job.load_logs.get(&spectrum.key));
        Self { spectrum, log: log.map_or(&[], Vec::as_slice), lasting: lasting.get().copied() }
    }
}

impl Case<'_> {
    /// Whether something is required of the joint under this load.
    pub(super) fn is_required(&self) -> bool {
        self.kind != Some(LoadKind::Test)
    }

    /// The factor on the load, and where it comes from.
    pub(super) fn load_factor(&self, tables: &Tables) -> Known<(f64, &'static str)> {
        if let Some(factor) = self.factor.get() {
            return Ok((*factor, "load factor of the case"));
        }
        match self.kind {
            Some(LoadKind::Ultimate) => Ok((1.0, "an ultimate load has its factor in it")),
            Some(LoadKind::Test) => Ok((1.0, "a test load is taken as it is")),
            // A load that does not say what it is for is taken for a limit load: the severer reading.
            Some(LoadKind::Limit) | None => match method(tables)? {
                Method::En1999 => Ok((VARIABLE_ACTION, "load factor of the method")),
                Method::Own => Err(Lack::Missing { keys: vec![self.factor.key.clone()] }),
            },
        }
    }
}

/// The method of the job.
pub(super) fn method(tables: &Tables) -> Known<Method> {
    let head = tables.job.need()?;
    Ok(*head.method.need()?)
}

/// A partial factor: the method's, or the job's own.
pub(super) fn partial_factor(
    tables: &Tables,
    of_method: f64,
    own: fn(&job::tables::Factors) -> &Entry<f64>,
    key: &str,
) -> Known<f64> {
    match method(tables)? {
        Method::En1999 => Ok(of_method),
        Method::Own => {
            let absent = || job::Absent { keys: vec![key.to_owned()] };
            let factors = tables.factors.get().ok_or_else(absent)?;
            Ok(*own(factors).need()?)
        }
    }
}
