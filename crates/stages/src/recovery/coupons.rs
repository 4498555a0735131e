//! The coupons of one adhesive as the strip sees them: groups of like ones, each a strip.

use std::num::NonZeroUsize;
use std::thread;

use assessment::{Basis, Known, Lack};
use evidence::pattern::{Code, Pattern};
use job::tables::{Adhesive, CouponKind, Coupons, Tables};
use job::{Job, Needed, Specimen};
use mechanics::strip;
use mechanics::strip::progressive::Walker;
use quantity::Kind;

use crate::Results;
use crate::join::lap_shear::FREE_LENGTH_MM;
use crate::join::{bondline_share, bondline_toughness_share};
use crate::witness::{self, Coupon, Form, Properties};

/// Coupons whose overlaps or cracks span no more than this share are a group, and share a strip of the middle length.
const SPAN: f64 = 1.08;

/// How much longer the strip is by which the power of the length is found.
const LONGER: f64 = 1.1;

/// The most groups: each takes some dozen strips a step of the search.
const MOST_GROUPS: usize = 12;

/// A strip of a group, and what its layer does to the adhesive's strength and toughness.
#[derive(Debug, Clone)]
struct Node {
    coupon: Coupon,
    shares: [f64; 2],
    /// The load goes with this power of the length: of the overlap, or of the crack.
    ///
    /// Found where the search begins, and kept. Another adhesive changes it by a quarter at most, which at the ends of a
    /// group moves a load by 1 % up and down.
    power: f64,
}

impl Node {
    /// The properties in its layer.
    fn inside(&self, properties: &Properties) -> Properties {
        let [strong, tough] = self.shares;
        Properties {
            shear_mpa: strong * properties.shear_mpa,
            tensile_mpa: strong * properties.tensile_mpa,
            second_n_mm: tough * properties.second_n_mm,
            first_n_mm: tough * properties.first_n_mm,
        }
    }
}

/// A specimen of a group.
#[derive(Debug, Clone, Copy)]
struct Row {
    node: usize,
    /// Logarithm of its length over that of the strip.
    beyond: f64,
    measured_n_mm: f64,
}

/// All coupons of an adhesive.
#[derive(Debug, Clone, Default)]
pub(super) struct Witnesses {
    nodes: Vec<Node>,
    rows: Vec<Row>,
    /// Names of the sets taken.
    pub(super) sets: Vec<String>,
    /// Specimens that tell nothing of the adhesive, each with its reason.
    pub(super) left_out: Vec<String>,
}

/// The sets that are to tell the properties of an adhesive: those whose plates are named.
pub(super) fn sets<'j>(job: &'j Job, adhesive: &str) -> Vec<(&'j str, &'j Coupons)> {
    let all = job.tables.coupons.iter();
    all.filter(|(_, set)| set.adhesive.get().is_some_and(|name| name == adhesive))
        .filter(|(_, set)| set.adherend.get().is_some() || set.thickness.get().is_some())
        .collect()
}

impl Witnesses {
    /// Makes the strips of all sets, whose layers have these moduli.
    pub(super) fn of(
        job: &Job,
        adhesive: &Adhesive,
        sets: &[(&str, &Coupons)],
        layer: strip::Adhesive,
        results: &mut Results,
    ) -> Known<Self> {
        let mut all = Self::default();
        for (name, set) in sets {
            let specimens =
                job.specimens.get(*name).ok_or_else(|| Lack::Missing { keys: vec![set.data.key.clone()] })?;
            all.add((name, set), specimens, adhesive, &job.tables, layer, results)?;
        }
        if all.nodes.len() > MOST_GROUPS {
            return Err(Lack::OutOfData {
                what: format!(
                    "the coupons have {} different lengths, of which {MOST_GROUPS} are taken at most",
                    all.nodes.len()
                ),
                key: sets.last().map_or_else(String::new, |(_, set)| set.data.key.clone()),
            });
        }
        Ok(all)
    }

    /// Strips that are loaded to foretell all coupons.
    pub(super) fn strips(&self) -> usize {
        self.nodes.len()
    }

    /// Loads at failure over the widths, N/mm.
    pub(super) fn measured_n_mm(&self) -> Vec<f64> {
        self.rows.iter().map(|row| row.measured_n_mm).collect()
    }

    /// The greatest share of a cantilever's bond that has begun to give at its greatest load; beyond 1 the end at which
    /// it is held takes part, which the strip does not know.
    pub(super) fn damaged_share(&self, properties: &Properties) -> f64 {
        let mut walker = Walker::new();
        let cracked = self.nodes.iter().filter(|node| !matches!(node.coupon.form, Form::Lap { .. }));
        let of = |node: &Node| {
            let foretold = node.coupon.foretell(&node.inside(properties), &mut walker).ok()?;
            Some(foretold.damaged_mm / node.coupon.overlap_mm)
        };
        cracked.filter_map(of).fold(0.0, f64::max)
    }

    /// The loads that the strip foretells, N/mm; nothing where a way to failure finds no end.
    pub(super) fn foretold_n_mm(&self, properties: &Properties) -> Option<Vec<f64>> {
        let threads = thread::available_parallelism().map_or(1, NonZeroUsize::get);
        let each = self.nodes.len().div_ceil(threads).max(1);
        let of = |nodes: &[Node]| -> Vec<Option<f64>> {
            let mut walker = Walker::new();
            let mut one = |node: &Node| {
                Some(libm::log(node.coupon.foretell(&node.inside(properties), &mut walker).ok()?.load_n_mm))
            };
            nodes.iter().map(&mut one).collect()
        };
        let logs: Option<Vec<f64>> = thread::scope(|scope| {
            let parts: Vec<_> = self.nodes.chunks(each).map(|nodes| scope.spawn(move || of(nodes))).collect();
            let parts = parts.into_iter().map(|part| part.join().unwrap_or_else(|_| vec![None]));
            parts.flatten().collect()
        });
        let logs = logs?;
        let of = |row: &Row| {
            let log = logs.get(row.node)? + self.nodes.get(row.node)?.power * row.beyond;
            Some(libm::exp(log))
        };
        self.rows.iter().map(of).collect()
    }

    /// Finds with which power of its length the load of each group goes.
    pub(super) fn learn(&mut self, properties: &Properties) -> Known<()> {
        let mut walker = Walker::new();
        for (index, node) in self.nodes.iter_mut().enumerate() {
            if self.rows.iter().any(|row| row.node == index && row.beyond.abs() > 1e-6) {
                let inside = node.inside(properties);
                let mut load = |coupon: &Coupon| coupon.foretell(&inside, &mut walker).map(|it| it.load_n_mm);
                let longer = load(&node.coupon.longer(LONGER))?;
                node.power = libm::log(longer / load(&node.coupon)?) / libm::log(LONGER);
            }
        }
        Ok(())
    }

    fn add(
        &mut self,
        (name, set): (&str, &Coupons),
        specimens: &[Specimen],
        adhesive: &Adhesive,
        tables: &Tables,
        layer: strip::Adhesive,
        results: &mut Results,
    ) -> Known<()> {
        let (material, thickness) =
            (tables.materials.referred(&set.adherend), set.thickness.need()).need_all()?;
        let bondline =
            set.bondline.need().or_else(|absent| adhesive.standoff_beads.need().map_err(|_| absent));
        let bondline_mm = bondline?.mm();
        let print = |mm| results.print(mm, Kind::Length);
        let shares = [
            bondline_share(adhesive, bondline_mm, print)?,
            bondline_toughness_share(adhesive, bondline_mm, print)?,
        ];
        let (plate, hardening) = witness::plate(material, thickness.mm())?;
        taken(name, set, bondline_mm, results);
        let kept: Vec<&Specimen> = specimens.iter().filter(|specimen| self.tells(specimen)).collect();
        let mean_overlap_mm = kept.iter().map(|it| it.overlap_mm).sum::<f64>() / count(kept.len());
        let of = |length_mm: f64| Node {
            coupon: Coupon {
                form: match set.kind.get() {
                    Some(CouponKind::DoubleCantilever) => Form::DoubleCantilever { crack_mm: length_mm },
                    Some(CouponKind::EndLoadedSplit) => Form::EndLoadedSplit { crack_mm: length_mm },
                    Some(CouponKind::Lap) | None => {
                        Form::Lap { arm_mm: set.free_length.get().map_or(FREE_LENGTH_MM, |it| it.mm()) }
                    }
                },
                plate,
                hardening,
                layer,
                bondline_mm,
                overlap_mm: if set.is_cracked() { mean_overlap_mm } else { length_mm },
            },
            shares,
            power: 0.0,
        };
        self.group(&kept, of);
        self.sets.push(name.to_owned());
        Ok(())
    }

    /// The same with every specimen as long as the strip of its group.
    #[cfg(test)]
    pub(super) fn level(&mut self) {
        self.rows.iter_mut().for_each(|row| row.beyond = 0.0);
    }

    /// How far the loads foretold lie from those of strips of the specimens' own lengths, as a share; the worst.
    #[cfg(test)]
    pub(super) fn worst_of_own(&self, properties: &Properties) -> f64 {
        let mut walker = Walker::new();
        let foretold = self.foretold_n_mm(properties).expect("capacities");
        let off = self.rows.iter().zip(foretold).map(|(row, foretold)| {
            let node = &self.nodes[row.node];
            let own = node.coupon.longer(libm::exp(row.beyond));
            foretold / own.foretell(&node.inside(properties), &mut walker).expect("a capacity").load_n_mm
                - 1.0
        });
        off.fold(0.0, |worst, off| f64::max(worst, off.abs()))
    }

    /// Whether a specimen tells of the adhesive: not where it came off the metal, nor where the metal broke.
    fn tells(&mut self, specimen: &Specimen) -> bool {
        let Ok(pattern) = Pattern::parse(&specimen.pattern.value) else { return true };
        let plate = [Code::Substrate, Code::CohesiveSubstrate, Code::Delamination];
        let metal: f64 = plate.into_iter().map(|code| pattern.share(code)).sum();
        let why = if pattern.possible_adhesion_share() > 0.0 {
            "came off the metal"
        } else if metal > 0.0 {
            "broke in the plate"
        } else {
            return true;
        };
        self.left_out.push(format!("{} ({why})", specimen.specimen));
        false
    }

    /// Puts specimens of one set into groups by their overlap, or by their crack.
    fn group(&mut self, specimens: &[&Specimen], node: impl Fn(f64) -> Node) {
        let length = |it: &Specimen| it.crack_mm.unwrap_or(it.overlap_mm);
        let mut sorted = specimens.to_vec();
        sorted.sort_by(|a, b| length(a).total_cmp(&length(b)));
        let mut rest = sorted.as_slice();
        while let Some(first) = rest.first() {
            let low = length(first);
            let size = rest.partition_point(|it| length(it) <= SPAN * low);
            let (group, others) = rest.split_at(size);
            let high = group.last().map_or(low, |last| length(last));
            let middle = (low * high).sqrt();
            let row = |it: &&Specimen| Row {
                node: self.nodes.len(),
                beyond: libm::log(length(it) / middle),
                measured_n_mm: it.load_n / it.width_mm,
            };
            self.rows.extend(group.iter().map(row));
            self.nodes.push(node(middle));
            rest = others;
        }
    }
}

#[expect(clippy::cast_precision_loss, reason = "numbers of coupons are small")]
fn count(number: usize) -> f64 {
    number as f64
}

/// What a set of coupons leaves open.
fn taken(name: &str, set: &Coupons, bondline_mm: f64, results: &mut Results) {
    if !set.is_cracked() {
        results.assume_silent(
            &set.kind,
            Basis::CommonPractice("witness coupons are mostly single laps"),
            |_| format!("The coupons {name} are taken for single laps."),
        );
        let basis = Basis::Memory("ISO 4587: plates of 100 mm, of which 37.5 mm are gripped");
        results.assume_silent(&set.free_length, basis, |results| {
            let length = results.print(FREE_LENGTH_MM, Kind::Length);
            format!("The coupons {name} are taken to be gripped {length} from their overlap.")
        });
    }
    let basis = Basis::CommonPractice("pressed plates come to rest on the standoff beads");
    results.assume_silent(&set.bondline, basis, |results| {
        let bondline = results.print(bondline_mm, Kind::Length);
        format!(
            "The bondline of the coupons {name} is taken for {bondline}, the diameter of the standoff beads."
        )
    });
    let statement = format!("The coupons {name} are taken to be cured through, and broken dry at 23 °C.");
    let basis = Basis::CommonPractice("strengths of an adhesive are given for 23 °C, dry, cured through");
    results.assume(&set.key, statement, basis);
}
