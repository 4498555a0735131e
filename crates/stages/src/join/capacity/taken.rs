//! What is taken for granted where a bond is loaded until it gives way.

use assessment::Basis;
use job::tables::{Law, Model, Strengths as Given};

use super::super::subject::Subject;
use super::law::{Strengths, kind};
use crate::Results;

/// Says what the file leaves open, under the key of the model where the form of joint has one.
pub(in super::super) fn of_bond(
    subject: &Subject<'_>,
    strengths: &Strengths<'_>,
    model: Option<(&job::Entry<Model>, Option<&Model>)>,
    results: &mut Results,
) {
    let name = subject.name;
    let key = |of: fn(&Model) -> &str, word: &str| match model {
        Some((_, Some(model))) => of(model).to_owned(),
        Some((entry, None)) => format!("{}.{word}", entry.key),
        None => format!("joints.{name}"),
    };
    let law = kind(strengths);
    if strengths.asked.is_none() {
        let statement = match law {
            Law::ElasticPlastic => format!(
                "The bond of {name} is loaded to failure with a shear that stays level up to its strain at failure: the adhesive has one, and no toughness."
            ),
            Law::Bilinear | Law::Linear => format!(
                "The bond of {name} is loaded to failure with a shear and a peel that soften until the adhesive's toughness is spent."
            ),
        };
        let basis =
            Basis::CommonPractice("the law for which there are data, and of both the one that knows peel");
        results.assume(&key(|model| &model.law.key, "law"), statement, basis);
    }
    if law == Law::Bilinear
        && model.is_none_or(|(_, model)| model.is_none_or(|it| it.mixed_mode.get().is_none()))
    {
        let statement = format!(
            "Opening and shear of the bond of {name} share its toughness linearly: G_I/G_Ic + G_II/G_IIc = 1."
        );
        let basis = Basis::CommonPractice("the power law with an exponent of 1");
        results.assume(&key(|model| &model.mixed_mode.key, "mixed_mode"), statement, basis);
    }
    if model.is_some_and(|(_, model)| model.is_none_or(|it| it.adherends.get().is_none())) {
        let statement = format!(
            "The plates of {name} stay elastic while its bond is loaded to failure; their own check stands beside it."
        );
        let basis = Basis::CommonPractice("yielding plates are judged by their own finding");
        results.assume(&key(|model| &model.adherends.key, "adherends"), statement, basis);
    }
    if strengths.adhesive.strengths.get() != Some(&Given::Characteristic)
        && strengths.adhesive.scatter.get().is_some()
    {
        let statement = "The toughness scatters as the strengths do.".to_owned();
        let basis = Basis::CommonPractice(
            "one coefficient of variation for strength and toughness where no other is given",
        );
        results.assume(&strengths.adhesive.scatter.key, statement, basis);
    }
}
