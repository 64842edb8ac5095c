//! What a builder writes for a length, a weight, a load, a stiffness.

#![no_main]

mod answered;

libfuzzer_sys::fuzz_target!(|typed: &str| answered::quantity(typed));
