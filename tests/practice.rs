//! Calibration: beds whose answer carpenters know. Common practice, no source: what is settled among
//! people who build beds, written down here so that no default drifts away from it.

mod support;

use slatwright::check::{Assessment, Limit, Role, Verdict};
use support::assessed;

/// The greatest ratio of a limit among the members of a role, with its case.
fn worst(a: &Assessment, role: Role, limit: Option<Limit>) -> (f64, String) {
    a.members
        .iter()
        .filter(|m| m.role == role)
        .flat_map(|m| &m.checks)
        .filter(|c| limit.is_none_or(|l| c.limit == l))
        .map(|c| (c.ratio, format!("{} under {}", c.limit.name(), c.case.name())))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .expect("such members have such checks")
}

const BOARD: &str = "thickness = \"3/4 in\"\nwidth = \"3-1/2 in\"";

fn ungraded(species: &str) -> String {
    format!("{{ species = \"{species}\", grade = \"ungraded\", knot = \"1/2 in\", slope_of_grain = \"1:12\" }}")
}

/// A bed for two, 60 by 80 in, on 1-1/2 in cleats: 57 in clear.
fn couple(wood: &str, size: &str, gap: &str) -> String {
    format!(
        "[platform]\nlength = \"80 in\"\nwidth = \"60 in\"\n[mattress]\nthickness = \"8 in\"\nweight = \"70 lb\"\n\
         [[sleeper]]\nweight = \"220 lb\"\n[[sleeper]]\nweight = \"200 lb\"\n[slats]\nwood = {wood}\n{size}\ngap = \
         \"{gap}\"\nfixed = true\n[cleats]\nwood = \"spruce-pine-fir no2\"\nsize = \"2x4\"\nscrews = {{ screw = \
         \"#14 x 3 in\", pitch = \"6 in\", first = \"3 in\" }}\n[rails]\nwood = \"spruce-pine-fir no2\"\nsize = \
         \"2x10\"\nends = {{ joint = \"bearing\", bearing = \"1-1/2 in\" }}\n"
    )
}

/// 2x4 laid flat over about 57 in, gaps up to about 2-1/2 in, carry two heavy sleepers.
#[test]
fn two_by_fours_flat_carry_a_heavy_couple() {
    for gap in ["1 in", "2 in", "2-1/2 in"] {
        let a = assessed(&couple("\"spruce-pine-fir no2\"", "size = \"2x4\"", gap));
        let (ratio, what) = worst(&a, Role::Slat, None);
        assert!(ratio <= 1.0, "gaps of {gap}: {ratio} in {what}");
        assert!(a.members.iter().filter(|m| m.role == Role::Slat).all(|m| m.verdict() == Verdict::Pass));
    }
}

/// 3/4 in boards over the same span do not, by a wide margin, whatever the wood: in stiffness by
/// more than a factor of two, and in strength as well.
#[test]
fn boards_do_not_carry_a_heavy_couple() {
    for species in ["yellow-poplar", "northern red oak", "eastern white pine"] {
        let a = assessed(&couple(&ungraded(species), BOARD, "2-1/2 in"));
        let (ratio, what) = worst(&a, Role::Slat, None);
        let (bending, case) = worst(&a, Role::Slat, Some(Limit::Bending));
        assert!(ratio > 2.0, "{species}: {ratio} in {what}");
        assert!(bending > 2.0, "{species}: {bending} in {case}");
    }
}

/// A child's bed 30 in wide.
fn child(species: &str, more: &str) -> String {
    format!(
        "[platform]\nlength = \"60 in\"\nwidth = \"30 in\"\n[mattress]\nthickness = \"4 in\"\nweight = \"15 lb\"\n\
         [[sleeper]]\nweight = \"40 lb\"\n{more}[slats]\nwood = {}\n{BOARD}\ngap = \"2-1/2 in\"\nfixed = true\n\
         [cleats]\nwood = \"spruce-pine-fir no2\"\nsize = \"2x2\"\nscrews = {{ screw = \"#10 x 2-1/2 in\", pitch = \
         \"6 in\", first = \"3 in\" }}\n[rails]\nwood = \"spruce-pine-fir no2\"\nsize = \"2x6\"\nends = {{ joint = \
         \"bearing\", bearing = \"1-1/2 in\" }}\n",
        ungraded(species)
    )
}

/// 3/4 in boards serve a child of 40 lb lying, sitting and kneeling: nothing but those cases runs.
#[test]
fn boards_carry_a_child() {
    let quiet = "[visitor]\nweight = \"none\"\n[cases]\nrow = { drop = true }\nclimbing = { drop = true }\n\
                 dropping = { drop = true }\njumping = { drop = true }\nuniform = { drop = true }\n";
    for species in ["yellow-poplar", "northern red oak", "eastern white pine"] {
        let a = assessed(&child(species, quiet));
        let (ratio, what) = worst(&a, Role::Slat, None);
        assert!(ratio <= 1.0, "{species}: {ratio} in {what}");
    }
}

/// What practice does not settle, and the program says of the same boards: a jumping child of 40 lb
/// loads them more than a kneeling one, and an adult of 180 lb who sits there more than a child who
/// sits there. Only the sign is practice, no source.
#[test]
fn jumping_and_a_visitor_load_the_boards_more() {
    let only = |keep: &str| -> String {
        ["lying", "sitting", "row", "kneeling", "climbing", "dropping", "jumping", "uniform"]
            .iter()
            .filter(|c| **c != keep)
            .map(|c| format!("{c} = {{ drop = true }}\n"))
            .collect()
    };
    let bending = |keep: &str, visitor: &str| {
        let more = format!("[visitor]\nweight = \"{visitor}\"\n[cases]\n{}", only(keep));
        worst(&assessed(&child("yellow-poplar", &more)), Role::Slat, Some(Limit::Bending))
    };
    let (kneeling, jumping) = (bending("kneeling", "none"), bending("jumping", "none"));
    let (alone, visited) = (bending("sitting", "none"), bending("sitting", "180 lb"));
    assert!(jumping.0 > kneeling.0);
    assert!(visited.0 > alone.0);
}
