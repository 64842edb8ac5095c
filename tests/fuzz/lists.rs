//! A list of boards hung with a weight, and a rack of sticks and screws.

#![no_main]

mod answered;

use std::sync::LazyLock;

use slatwright::brief::Brief;

static BESIDE: LazyLock<Brief> = LazyLock::new(|| Brief::read(include_str!("small.toml")));

libfuzzer_sys::fuzz_target!(|typed: &str| answered::lists(typed, &BESIDE));
