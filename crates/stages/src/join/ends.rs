//! An adhesive of which little is known as two complete tables, between which its own values lie: by its class, or by what
//! a lap of its data sheet carried.

use std::collections::BTreeMap;

use assessment::Lack;
use job::tables::{Adhesive, AdhesiveClass, Strengths, Tables};
use job::{Entry, Job, Located, Place};
use quantity::{Quantity, Stress, Toughness};

use super::lap_shear;
use crate::{Ask, Results};

/// Values of a class, lower and upper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Range {
    pub(crate) youngs_modulus_mpa: [f64; 2],
    pub(crate) poissons_ratio: [f64; 2],
    pub(crate) characteristic_shear_mpa: [f64; 2],
    pub(crate) characteristic_tensile_mpa: [f64; 2],
    pub(crate) mode_1_toughness_n_mm: [f64; 2],
    pub(crate) mode_2_toughness_n_mm: [f64; 2],
}

/// Ranges of the classes: common practice, no source. They span what data sheets and papers on such adhesives state, and
/// are there to show what is still missing, not to size anything.
pub(crate) fn range(class: AdhesiveClass) -> Range {
    match class {
        AdhesiveClass::ToughenedEpoxy => Range {
            youngs_modulus_mpa: [1_200.0, 2_600.0],
            poissons_ratio: [0.35, 0.42],
            characteristic_shear_mpa: [13.0, 25.0],
            characteristic_tensile_mpa: [15.0, 32.0],
            mode_1_toughness_n_mm: [0.8, 3.0],
            mode_2_toughness_n_mm: [1.6, 8.0],
        },
        AdhesiveClass::PlainEpoxy => Range {
            youngs_modulus_mpa: [2_500.0, 5_500.0],
            poissons_ratio: [0.33, 0.40],
            characteristic_shear_mpa: [10.0, 25.0],
            characteristic_tensile_mpa: [15.0, 40.0],
            mode_1_toughness_n_mm: [0.15, 0.6],
            mode_2_toughness_n_mm: [0.3, 2.0],
        },
        AdhesiveClass::Methacrylate => Range {
            youngs_modulus_mpa: [300.0, 1_500.0],
            poissons_ratio: [0.36, 0.45],
            characteristic_shear_mpa: [8.0, 20.0],
            characteristic_tensile_mpa: [8.0, 22.0],
            mode_1_toughness_n_mm: [0.8, 4.0],
            mode_2_toughness_n_mm: [1.5, 10.0],
        },
    }
}

/// What an adhesive of no known class may have: from the least to the greatest of all classes.
pub(crate) fn range_of_any() -> Range {
    use AdhesiveClass::{Methacrylate, PlainEpoxy, ToughenedEpoxy};
    let around = |one: [f64; 2], other: [f64; 2]| [f64::min(one[0], other[0]), f64::max(one[1], other[1])];
    [PlainEpoxy, Methacrylate].map(range).into_iter().fold(range(ToughenedEpoxy), |all, one| Range {
        youngs_modulus_mpa: around(all.youngs_modulus_mpa, one.youngs_modulus_mpa),
        poissons_ratio: around(all.poissons_ratio, one.poissons_ratio),
        characteristic_shear_mpa: around(all.characteristic_shear_mpa, one.characteristic_shear_mpa),
        characteristic_tensile_mpa: around(all.characteristic_tensile_mpa, one.characteristic_tensile_mpa),
        mode_1_toughness_n_mm: around(all.mode_1_toughness_n_mm, one.mode_1_toughness_n_mm),
        mode_2_toughness_n_mm: around(all.mode_2_toughness_n_mm, one.mode_2_toughness_n_mm),
    })
}

/// Two complete tables of an adhesive.
pub(super) struct Ends {
    pub(super) adhesives: [Adhesive; 2],
    /// The keys that would settle it.
    pub(super) keys: Vec<String>,
    /// By what they are known: "the adhesive's class".
    pub(super) by: &'static str,
}

impl Ends {
    /// By the class.
    pub(super) const BY_CLASS: &str = "the adhesive's class";

    /// What is missing, as the reason for not judging.
    pub(super) fn lack(&self) -> Lack {
        Lack::Missing { keys: self.keys.clone() }
    }

    /// The same with other keys that are missing as well; any other reason as it is.
    pub(super) fn and(&self, lack: Lack) -> Lack {
        let Lack::Missing { keys } = lack else { return lack };
        let more = keys.into_iter().filter(|key| !self.keys.contains(key));
        Lack::Missing { keys: self.keys.iter().cloned().chain(more).collect() }
    }

    /// The job's tables with each of the two in place of an adhesive.
    pub(super) fn tables(&self, tables: &Tables, name: &str) -> [Tables; 2] {
        self.adhesives.each_ref().map(|adhesive| {
            let mut tables = tables.clone();
            for (known, item) in &mut tables.adhesives.items {
                if known.value == name {
                    *item = adhesive.clone();
                }
            }
            tables
        })
    }
}

/// The ends of every adhesive that needs them, by its name.
pub(super) struct AllEnds(BTreeMap<String, Ends>);

impl AllEnds {
    /// The ends of the adhesives that joints are made with.
    pub(super) fn of(job: &Job, ask: &Ask, results: &mut Results) -> Self {
        let mut all = BTreeMap::new();
        let used = job.tables.joints.iter().filter_map(|(_, joint)| joint.adhesive().get());
        let used: std::collections::BTreeSet<&String> = used.collect();
        for name in used {
            let Some(adhesive) = job.tables.adhesives.get(name) else { continue };
            let by_lap = lap_shear::find(name, adhesive, &job.tables, ask, results);
            if let Some(ends) = by_lap.or_else(|| of_class(adhesive)) {
                all.insert(name.clone(), ends);
            }
        }
        Self(all)
    }

    /// Those of the adhesive that a joint names, where it needs any.
    pub(super) fn get(&self, name: &Entry<String>) -> Option<&Ends> {
        name.get().and_then(|name| self.0.get(name))
    }
}

/// The keys of an adhesive that a strip loaded to failure needs and that are not given.
pub(super) fn wanting(adhesive: &Adhesive) -> Vec<String> {
    fn absent<T>(entry: &Entry<T>) -> Option<String> {
        entry.get().is_none().then(|| entry.key.clone())
    }
    let tough = [absent(&adhesive.mode_1_toughness), absent(&adhesive.mode_2_toughness)];
    let mut keys: Vec<String> = [
        absent(&adhesive.youngs_modulus),
        absent(&adhesive.poissons_ratio),
        absent(&adhesive.shear_strength),
    ]
    .into_iter()
    .flatten()
    .collect();
    // A shear curve that stays level needs neither tension nor toughness.
    let level = adhesive.shear_strain_at_failure.get().is_some() && tough.iter().all(Option::is_some);
    if !level || adhesive.shear_strength.get().is_none() {
        keys.extend(absent(&adhesive.tensile_strength));
        keys.extend(tough.into_iter().flatten());
    }
    keys
}

fn of_class(adhesive: &Adhesive) -> Option<Ends> {
    let place = adhesive.class.place()?;
    let range = range(*adhesive.class.get()?);
    let mut keys = wanting(adhesive);
    if keys.is_empty() {
        return None;
    }
    if adhesive.strengths.get() != Some(&Strengths::Characteristic) && adhesive.scatter.get().is_none() {
        keys.push(adhesive.scatter.key.clone());
    }
    let adhesives = [0, 1].map(|end| {
        let values = Filling {
            youngs_modulus_mpa: range.youngs_modulus_mpa[end],
            poissons_ratio: range.poissons_ratio[end],
            shear_mpa: range.characteristic_shear_mpa[end],
            tensile_mpa: range.characteristic_tensile_mpa[end],
            first_n_mm: range.mode_1_toughness_n_mm[end],
            second_n_mm: range.mode_2_toughness_n_mm[end],
        };
        values.characteristic_into(adhesive, place)
    });
    Some(Ends { adhesives, keys, by: Ends::BY_CLASS })
}

/// Values for what an adhesive does not give.
#[derive(Debug, Clone, Copy)]
pub(super) struct Filling {
    pub(super) youngs_modulus_mpa: f64,
    pub(super) poissons_ratio: f64,
    pub(super) shear_mpa: f64,
    pub(super) tensile_mpa: f64,
    pub(super) first_n_mm: f64,
    pub(super) second_n_mm: f64,
}

impl Filling {
    /// The adhesive with these values where it gives none.
    pub(super) fn into(self, adhesive: &Adhesive, place: &Place) -> Adhesive {
        let mut filled = adhesive.clone();
        fill(&mut filled.youngs_modulus, Stress::from_base(self.youngs_modulus_mpa), place);
        fill(&mut filled.poissons_ratio, self.poissons_ratio, place);
        fill(&mut filled.shear_strength, Stress::from_base(self.shear_mpa), place);
        fill(&mut filled.tensile_strength, Stress::from_base(self.tensile_mpa), place);
        fill(&mut filled.mode_1_toughness, Toughness::from_base(self.first_n_mm), place);
        fill(&mut filled.mode_2_toughness, Toughness::from_base(self.second_n_mm), place);
        filled
    }

    /// The same where these strengths and toughnesses are characteristic. Where the adhesive gives means with a
    /// scatter beside them, they are made means as well.
    fn characteristic_into(self, adhesive: &Adhesive, place: &Place) -> Adhesive {
        let means = adhesive.strengths.get() != Some(&Strengths::Characteristic);
        match adhesive.scatter.get().filter(|_| means) {
            Some(scatter) => {
                let share = 1.0 / (1.0 - super::adhesive::CHARACTERISTIC_AT * scatter);
                let raised = Self {
                    shear_mpa: share * self.shear_mpa,
                    tensile_mpa: share * self.tensile_mpa,
                    first_n_mm: share * self.first_n_mm,
                    second_n_mm: share * self.second_n_mm,
                    ..self
                };
                raised.into(adhesive, place)
            }
            None => {
                let given = [&adhesive.shear_strength, &adhesive.tensile_strength];
                let mut filled = self.into(adhesive, place);
                // Of a mean given without a scatter nothing characteristic is known.
                if given.iter().all(|entry| entry.get().is_none())
                    && adhesive.mode_1_toughness.get().is_none()
                    && adhesive.mode_2_toughness.get().is_none()
                {
                    fill(&mut filled.strengths, Strengths::Characteristic, place);
                }
                filled
            }
        }
    }
}

fn fill<T>(entry: &mut Entry<T>, value: T, place: &Place) {
    if entry.located.is_none() {
        entry.located = Some(Located { value, place: place.clone() });
    }
}
