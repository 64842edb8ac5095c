//! How fast designs are swept: slats of many sizes on one platform.

use divan::Bencher;
use divan::counter::ItemsCount;
use slatwright::brief::{Brief, LayWord};
use slatwright::choose::{Design, Part, Question, Supply, size, usual_pitches, woods_of};
use slatwright::platform::Platform;
use slatwright::quantity::Length;
use slatwright::quantity::unit::inch;
use slatwright::tables::Tables;

fn main() {
    divan::main();
}

fn text(slats: usize) -> String {
    include_str!("twenty_slats.toml").replace("count = 20", &format!("count = {slats}"))
}

/// So many thicknesses of each of two widths in the brief's woods, at each of these gaps.
fn question(brief: &Brief, thicknesses: u32, gaps: u32) -> Question {
    let p = Platform::build(brief, Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
    let thick: Vec<Length> =
        (0..thicknesses).map(|k| inch(1.5 + 1.4 * f64::from(k) / f64::from(thicknesses))).collect();
    let wide = [inch(2.5), inch(3.5)];
    let woods = woods_of(brief, &p, Part::Slat);
    Question {
        part: Part::Slat,
        supply: Supply::of_tables(Part::Slat, &p, &woods, [&thick, &wide], brief, Tables::embedded()),
        lays: vec![LayWord::Flat],
        gaps: (0..gaps).map(|k| p.slats.gap * (1.0 - 0.5 * f64::from(k) / f64::from(gaps))).collect(),
        beams: vec![false],
        pitches: usual_pitches(p.units),
        shown: 8,
    }
}

/// Designs swept in one call, by how many there are.
#[divan::bench(args = [(20, 1), (200, 1), (200, 5)], sample_count = 3, sample_size = 1)]
fn designs(bencher: Bencher<'_, '_>, (thicknesses, gaps): (u32, u32)) {
    let brief = Brief::read(&text(20));
    let q = question(&brief, thicknesses, gaps);
    bencher.counter(ItemsCount::new(q.choices())).bench(|| size(&Design::new(&brief, Tables::embedded()), &q));
}

/// The same, by how many slats the drawn platform has.
#[divan::bench(args = [10, 15, 20], sample_count = 3, sample_size = 1)]
fn slats(bencher: Bencher<'_, '_>, slats: usize) {
    let brief = Brief::read(&text(slats));
    let q = question(&brief, 100, 1);
    bencher.counter(ItemsCount::new(q.choices())).bench(|| size(&Design::new(&brief, Tables::embedded()), &q));
}
