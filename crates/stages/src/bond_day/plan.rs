//! The search over simple plans: wait, warm first, or close cold and heat then.

use assessment::Next;
use job::Edit;
use job::tables::BondDay;
use process::clocks::{AdhesiveTimes, Clock};
use process::heating::Stage;
use process::temperature::History;
use quantity::Kind;

use super::history::{Course, Temperatures, ZERO_CELSIUS_K};
use crate::Results;

/// The mildest heat that is tried, °C, and the step to the next: what lamps and ovens are set to.
const MILDEST_C: f64 = 40.0;
const STEP_C: f64 = 10.0;

/// Times of a plan are multiples of this, s: half an hour, which anybody keeps.
const GRID_S: f64 = 1800.0;

/// From the heat going on until the parts have its temperature, s.
const RAMP_S: f64 = 3600.0;

const HOUR_S: f64 = 3600.0;

/// How much colder than it is a shop is tried, in whole degrees.
const COLDER_K: u32 = 20;

/// What a plan is made for.
pub(super) struct Plan<'j> {
    pub(super) day: &'j BondDay,
    pub(super) times: &'j AdhesiveTimes,
    pub(super) temperatures: &'j Temperatures,
}

/// A stage of heat in words.
pub(super) fn in_words(stage: &Stage, results: &Results) -> String {
    let print = |time_s| results.print(time_s, Kind::Time);
    format!(
        "heated to {} from {} to {} after first mix",
        results.print(stage.temperature_k - ZERO_CELSIUS_K, Kind::Temperature),
        print(stage.from_s),
        print(stage.until_s)
    )
}

/// The mildest way to reach a strength in time: the lowest temperature, then the shortest heat, that leaves
/// the working time to the closing.
///
/// Two ways are tried. Parts that are warm before first mix cure in time from some temperature on, but the
/// working time shrinks with it. Heat that goes on after the last closing leaves the working time alone.
pub(super) fn reach_in_time(plan: &Plan<'_>, fraction: f64, by_s: f64, results: &Results) -> Next {
    let takes_s = plan.day.closing_takes.get().map(|takes| takes.seconds());
    let Some(working_s) = plan.working_s(&plan.temperatures.shop) else {
        return "Keep it standing longer, or warm the closed joint as the adhesive's data allow; warming before closing shortens the working time.".to_owned().into();
    };
    if takes_s.is_some_and(|takes_s| takes_s > working_s) {
        return "Make the closing fit the working time first; then heat the closed joint.".to_owned().into();
    }
    let first = plan.warm_first(fraction, by_s);
    let print_c = |celsius| results.print(celsius, Kind::Temperature);
    let print_s = |time_s| results.print(time_s, Kind::Time);
    if let (Some(warm), Some(takes_s)) = (&first, takes_s)
        && warm.working_s >= takes_s
    {
        return Next {
            text: format!(
                "Warm shop and parts to {} before first mix, and keep them there; {} are left to close, which takes {}.",
                print_c(warm.celsius),
                print_s(warm.working_s),
                print_s(takes_s)
            ),
            edits: plan.edits(&plan.day.temperature.key, format!("\"{} °C\"", warm.celsius)),
        };
    }
    let warning = first.map_or(String::new(), |warm| {
        let needed =
            takes_s.map_or(String::new(), |takes_s| format!(", and closing takes {}", print_s(takes_s)));
        format!(
            " Warming to {} before first mix would do, too, but leaves {} to close{needed}.",
            print_c(warm.celsius),
            print_s(warm.working_s)
        )
    });
    let start_s = (takes_s.unwrap_or(working_s) / GRID_S).ceil() * GRID_S;
    if let Some(stage) = plan.heat_after_closing(start_s, fraction, by_s) {
        return Next {
            text: format!(
                "Close cold, then heat the joint to {} from {} to {} after first mix, with {} of that to warm up.{warning}",
                print_c(stage.temperature_k - ZERO_CELSIUS_K),
                print_s(stage.from_s),
                print_s(stage.until_s),
                print_s(stage.ramp_s)
            ),
            edits: plan.edits(&plan.day.heating.key, written(&stage)),
        };
    }
    let hottest = plan.hottest_c().map_or(String::new(), |celsius| format!(", up to {}", print_c(celsius)));
    format!(
        "Keep it standing longer: heat from {} after first mix{hottest}, where the cure table ends, does not do it in time.{warning}",
        print_s(start_s)
    )
    .into()
}

/// What makes a closing fit the working time: heat later, or a colder shop.
pub(super) fn close_in_time(plan: &Plan<'_>, takes_s: f64, results: &Results) -> Next {
    let fits = |course: &Course| plan.working_s(course).is_some_and(|working_s| working_s >= takes_s);
    if !plan.temperatures.stages.is_empty() && fits(&plan.temperatures.shop) {
        let after = (takes_s / GRID_S).ceil() * GRID_S;
        let after = results.print(after, Kind::Time);
        return format!("Heat after the last closing, from {after} after first mix.").into();
    }
    let less = "Close in less time: more hands, or fewer joints from one mix".to_owned();
    let Some(shop) = plan.day.temperature.get() else { return format!("{less}.").into() };
    let colder = (1..=COLDER_K)
        .map(|kelvin| (shop.celsius() - f64::from(kelvin)).floor())
        .filter(|celsius| {
            let least = plan.times.least_cure_temperature_k;
            least.is_none_or(|least_k| celsius + ZERO_CELSIUS_K >= least_k)
        })
        .find(|celsius| {
            plan.constant(*celsius)
                .is_some_and(|history| plan.limit_s(&history).is_some_and(|working_s| working_s >= takes_s))
        });
    match colder {
        Some(celsius) => Next {
            text: format!("{less}; or work at {} or colder.", results.print(celsius, Kind::Temperature)),
            edits: plan.edits(&plan.day.temperature.key, format!("\"{celsius} °C\"")),
        },
        None => format!("{less}.").into(),
    }
}

/// Parts that are warm before first mix.
struct WarmFirst {
    celsius: f64,
    working_s: f64,
}

impl Plan<'_> {
    /// The edit that makes a key say something. Heat that the job already plans would have to go with it,
    /// which one edit of a list that may be written in two ways cannot do: then the words have to do.
    fn edits(&self, key: &str, value: String) -> Vec<Edit> {
        match self.day.heating.get() {
            Some(_) => Vec::new(),
            None => vec![Edit { key: key.to_owned(), value }],
        }
    }

    /// The working time on a course, s: the shorter that the gaps of a log leave open.
    fn working_s(&self, course: &Course) -> Option<f64> {
        let [coldest, warmest] = course.ends().map(|history| self.limit_s(history));
        Some(coldest?.min(warmest?))
    }

    fn limit_s(&self, history: &History) -> Option<f64> {
        at_s(self.times.limit(history, 0.0, &self.times.working_time).ok()?)
    }

    /// Whether a course reaches a strength in time, whatever the gaps of a log leave open.
    fn in_time(&self, course: &Course, fraction: f64, by_s: f64) -> bool {
        course.ends().iter().all(|history| self.history_in_time(history, fraction, by_s))
    }

    fn history_in_time(&self, history: &History, fraction: f64, by_s: f64) -> bool {
        let reached = self.times.strength(history, fraction).ok().and_then(at_s);
        reached.is_some_and(|at_s| at_s <= by_s)
    }

    fn constant(&self, celsius: f64) -> Option<History> {
        History::constant(celsius + ZERO_CELSIUS_K, self.temperatures.shop.end_s()).ok()
    }

    /// The hottest temperature of the cure table, °C; beyond it nothing is known of the adhesive.
    fn hottest_c(&self) -> Option<f64> {
        let hottest_k = self.times.strength.as_ref()?.hottest_k();
        Some(hottest_k - ZERO_CELSIUS_K)
    }

    /// The lowest whole degree at which parts that are warm from first mix on reach a strength in time; of a
    /// shop with a constant temperature only.
    fn warm_first(&self, fraction: f64, by_s: f64) -> Option<WarmFirst> {
        let mut celsius = self.day.temperature.get()?.celsius().floor() + 1.0;
        // A degree of slack for the rounding of kelvin.
        let hottest_c = self.hottest_c()? + 1e-9;
        while celsius <= hottest_c {
            let history = self.constant(celsius)?;
            if self.history_in_time(&history, fraction, by_s) {
                return Some(WarmFirst { celsius, working_s: self.limit_s(&history)? });
            }
            celsius += 1.0;
        }
        None
    }

    /// The mildest stage of heat from a time on that reaches a strength in time.
    fn heat_after_closing(&self, start_s: f64, fraction: f64, by_s: f64) -> Option<Stage> {
        let end_s = self.temperatures.shop.end_s().map_or(by_s, |end_s| end_s.min(by_s));
        let shop_k = self.temperatures.shop.ends().into_iter().filter_map(|h| h.temperature_k(start_s));
        let shop_c = shop_k.fold(0.0, f64::max) - ZERO_CELSIUS_K;
        // Holds of half an hour and more, up to what the time leaves.
        let most = ((end_s - start_s - RAMP_S) / GRID_S).floor();
        if most < 1.0 {
            return None;
        }
        for celsius in self.settings().into_iter().filter(|celsius| *celsius > shop_c) {
            let stage = |holds: f64| Stage {
                from_s: start_s,
                until_s: start_s + RAMP_S + holds * GRID_S,
                ramp_s: RAMP_S,
                temperature_k: celsius + ZERO_CELSIUS_K,
            };
            let does = |holds: f64| {
                let course = self.temperatures.shop.heated(&[stage(holds)]);
                course.is_ok_and(|course| self.in_time(&course, fraction, by_s))
            };
            if does(most) {
                // A longer hold is never later: the shortest that does is found by halving.
                let (mut short, mut long) = (0.0, most);
                while long - short > 1.0 {
                    let middle = f64::midpoint(short, long).floor();
                    if does(middle) {
                        long = middle;
                    } else {
                        short = middle;
                    }
                }
                return Some(stage(long));
            }
        }
        None
    }

    /// The temperatures that are tried, °C: round ones, up to the hottest of the cure table and that itself.
    fn settings(&self) -> Vec<f64> {
        // Kelvin and back leaves a rounding in the last digits; a data sheet has none of them.
        let Some(hottest_c) = self.hottest_c().map(|celsius| (celsius * 1e3).round() / 1e3) else {
            return Vec::new();
        };
        let mut settings = Vec::new();
        let mut celsius = MILDEST_C;
        while celsius < hottest_c {
            settings.push(celsius);
            celsius += STEP_C;
        }
        settings.push(hottest_c);
        settings
    }
}

fn at_s(clock: Clock) -> Option<f64> {
    match clock {
        Clock::Reached { at_s } | Clock::ReachedBy { at_s } => Some(at_s),
        _ => None,
    }
}

/// A stage as it stands in the job file.
fn written(stage: &Stage) -> String {
    let hours = |time_s: f64| time_s / HOUR_S;
    // The settings have no more digits than this; kelvin and back may.
    let celsius = ((stage.temperature_k - ZERO_CELSIUS_K) * 1e3).round() / 1e3;
    format!(
        "[{{ from = \"{} h\", until = \"{} h\", temperature = \"{celsius} °C\", ramp = \"{} h\" }}]",
        hours(stage.from_s),
        hours(stage.until_s),
        hours(stage.ramp_s)
    )
}
