//! A test before first use: the places to load, the weights, and how far everything should dip.

pub mod json;
pub mod text;

use crate::check::{Proof, Verdict};

/// Whether every step reaches what the people do, on a platform that passes its check.
pub fn complete(proof: &Proof) -> bool {
    proof.verdict == Verdict::Pass
        && !proof.steps.is_empty()
        && proof.steps.iter().all(|s| !s.short)
        && proof.slats.iter().all(|t| !t.short)
}
