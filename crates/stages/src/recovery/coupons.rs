//! The coupons of one adhesive as the strip sees them: groups of like ones, each a strip or two.

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

/// Coupons whose overlaps or cracks span no more than this share are a group. Strips are loaded at both ends of its
/// span; between, the logarithm of the load is linear in that of the length. A lap's load grows by a power of its
/// overlap between 0 and 1, a cantilever's falls with its crack by a power near 1: over a sixth of the length neither
/// power changes by more than a few hundredths, and what is left out is below 0.1 %.
const SPAN: f64 = 1.16;

/// Lengths nearer to each other than this share are one, and need one strip.
const SAME: f64 = 1.002;

/// The most groups: each takes some dozen strips a step of the search.
const MOST_GROUPS: usize = 12;

/// A strip of a group, and what its layer does to the adhesive's strength and toughness.
#[derive(Debug, Clone)]
struct Node {
    coupon: Coupon,
    shares: [f64; 2],
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

/// A specimen between two strips.
#[derive(Debug, Clone, Copy)]
struct Row {
    nodes: [usize; 2],
    /// Place between the two, by the logarithm of the length.
    place: f64,
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
    /// Whether each kind is among them, in the order of [`KINDS`].
    pub(super) kinds: [bool; 3],
    groups: usize,
}

/// The kinds of coupons.
pub(super) const KINDS: [CouponKind; 3] =
    [CouponKind::Lap, CouponKind::DoubleCantilever, CouponKind::EndLoadedSplit];

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
        if all.groups > MOST_GROUPS {
            return Err(Lack::OutOfData {
                what: format!(
                    "the coupons have {} different lengths, of which {MOST_GROUPS} are taken at most",
                    all.groups
                ),
                key: sets.last().map_or_else(String::new, |(_, set)| set.data.key.clone()),
            });
        }
        Ok(all)
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
            let [from, to] = row.nodes.map(|node| logs.get(node).copied());
            Some(libm::exp(from? + row.place * (to? - from?)))
        };
        self.rows.iter().map(of).collect()
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
        };
        self.group(&kept, of);
        self.sets.push(name.to_owned());
        for (has, kind) in self.kinds.iter_mut().zip(KINDS) {
            *has |= set.kind.get().copied().unwrap_or(CouponKind::Lap) == kind;
        }
        Ok(())
    }

    /// The same with every group of one length, the least of its own.
    #[cfg(test)]
    pub(super) fn level(&mut self) {
        let mut firsts: Vec<usize> = self.rows.iter().map(|row| row.nodes[0]).collect();
        firsts.dedup();
        self.nodes = firsts.iter().map(|first| self.nodes[*first].clone()).collect();
        for row in &mut self.rows {
            let at = firsts.iter().position(|first| *first == row.nodes[0]).expect("a node of each row");
            row.nodes = [at; 2];
        }
    }

    /// How far the load in the middle of a group lies from that of its own strip, as a share; the worst group.
    #[cfg(test)]
    pub(super) fn worst_between(&self, load: impl Fn(&Coupon) -> f64) -> f64 {
        let spans = self.rows.iter().filter(|row| row.nodes[0] != row.nodes[1]);
        let off = spans.map(|row| {
            let [low, high] = row.nodes.map(|node| &self.nodes[node].coupon);
            let middle = low.between(high);
            load(&middle) / (load(low) * load(high)).sqrt() - 1.0
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
            let from = self.nodes.len();
            let one = high <= SAME * low;
            if one {
                self.nodes.push(node((low * high).sqrt()));
            } else {
                self.nodes.extend([node(low), node(high)]);
            }
            let place =
                |it: &Specimen| if one { 0.0 } else { libm::log(length(it) / low) / libm::log(high / low) };
            let nodes = [from, self.nodes.len() - 1];
            let row =
                |it: &&Specimen| Row { nodes, place: place(it), measured_n_mm: it.load_n / it.width_mm };
            self.rows.extend(group.iter().map(row));
            self.groups += 1;
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
