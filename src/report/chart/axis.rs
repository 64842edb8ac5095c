//! The axes of a chart.

use std::ops::Range;

use plotters::coord::ranged1d::{KeyPointHint, NoDefaultFormatting, ValueFormatter};
use plotters::prelude::*;

use crate::quantity::unit::{inch, kilogram, millimetre, pound};
use crate::quantity::{Length, Mass, UnitSystem, length_for_builder};

/// An axis: its name with its unit, its range, and what is written along it.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// The name.
    pub name: String,
    /// Both ends, in the unit of the points.
    pub range: [f64; 2],
    /// Where something is written, and what.
    pub ticks: Vec<(f64, String)>,
}

impl Axis {
    /// Lengths in metres, written in inches or millimetres. The range grows to whole steps.
    pub fn lengths(name: &str, units: UnitSystem, [from, to]: [Length; 2]) -> Axis {
        let steps = match units {
            UnitSystem::Us => [0.125, 0.25, 0.5, 1.0, 2.0, 6.0, 12.0, 24.0, 48.0].map(inch),
            UnitSystem::Metric => [2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0].map(millimetre),
        };
        let unit = if units == UnitSystem::Us { "in" } else { "mm" };
        Axis::stepped(format!("{name}, {unit}"), [from.value, to.value], steps.map(|s| s.value), |v| {
            let text = length_for_builder(Length::new::<uom::si::length::meter>(v), units);
            text.trim_end_matches(unit).trim_end().to_owned()
        })
    }

    /// Weights in kilograms, written in pounds or kilograms. The range grows to whole steps.
    pub fn masses(name: &str, units: UnitSystem, [from, to]: [Mass; 2]) -> Axis {
        let (unit, one) = match units {
            UnitSystem::Us => ("lb", pound(1.0).value),
            UnitSystem::Metric => ("kg", kilogram(1.0).value),
        };
        let steps = [5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0].map(|s| s * one);
        Axis::stepped(format!("{name}, {unit}"), [from.value, to.value], steps, |v| format!("{:.0}", v / one))
    }

    /// The smallest step that leaves at most seven ticks.
    fn stepped<const N: usize>(
        name: String,
        [from, to]: [f64; 2],
        steps: [f64; N],
        words: impl Fn(f64) -> String,
    ) -> Axis {
        let whole = |step: f64| [(from / step + 1e-9).floor(), (to / step - 1e-9).ceil()];
        let few = |step: &&f64| {
            let [a, b] = whole(**step);
            b - a <= 6.0
        };
        let step = steps.iter().find(few).copied().unwrap_or((to - from).max(f64::MIN_POSITIVE) / 5.0);
        let [first, last] = whole(step);
        let last = last.max(first + 1.0);
        let ticks = (first as i64..=last as i64).map(|k| (k as f64 * step, words(k as f64 * step))).collect();
        Axis { name, range: [first * step, last * step], ticks }
    }
}

/// An axis as the drawing library asks for it.
pub(super) struct Scale<'a>(pub(super) &'a Axis);

impl Ranged for Scale<'_> {
    type FormatOption = NoDefaultFormatting;
    type ValueType = f64;

    fn map(&self, value: &f64, (first, last): (i32, i32)) -> i32 {
        let [from, to] = self.0.range;
        first + ((value - from) / (to - from) * f64::from(last - first)).round() as i32
    }

    fn key_points<Hint: KeyPointHint>(&self, _: Hint) -> Vec<f64> {
        self.0.ticks.iter().map(|t| t.0).collect()
    }

    fn range(&self) -> Range<f64> {
        self.0.range[0]..self.0.range[1]
    }
}

impl ValueFormatter<f64> for Scale<'_> {
    fn format_ext(&self, v: &f64) -> String {
        self.0.ticks.iter().find(|t| t.0 == *v).map_or(String::new(), |t| t.1.clone())
    }
}
