//! How long a whole check takes: brief in hand, every case and every position.

use divan::Bencher;
use slatwright::brief::Brief;
use slatwright::check::check;
use slatwright::load::cases;
use slatwright::platform::Platform;
use slatwright::tables::Tables;

fn main() {
    divan::main();
}

fn platform(slats: usize) -> Platform {
    built(&include_str!("twenty_slats.toml").replace("count = 20", &format!("count = {slats}")))
}

fn built(text: &str) -> Platform {
    Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"))
}

/// Everything a check does after the brief has been read.
#[divan::bench(args = [10, 20])]
fn whole_check(bencher: Bencher<'_, '_>, slats: usize) {
    let p = platform(slats);
    bencher.bench(|| check(divan::black_box(&p)));
}

/// The same for two adults, whom no case lets jump.
#[divan::bench]
fn two_adults(bencher: Bencher<'_, '_>) {
    let text = include_str!("twenty_slats.toml").replace("\"100 lb\"", "\"180 lb\"");
    let p = built(&text.replace("[[sleeper]]\nweight = \"90 lb\"\n", ""));
    bencher.bench(|| check(divan::black_box(&p)));
}

/// The load cases and their positions alone.
#[divan::bench(args = [20])]
fn load_cases(bencher: Bencher<'_, '_>, slats: usize) {
    let p = platform(slats);
    bencher.bench(|| cases(divan::black_box(&p)));
}

/// Reading and validating the brief.
#[divan::bench]
fn brief_to_platform(bencher: Bencher<'_, '_>) {
    let text = include_str!("twenty_slats.toml");
    bencher.bench(|| Platform::build(&Brief::read(divan::black_box(text)), Tables::embedded()).is_ok());
}
