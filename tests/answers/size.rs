//! What `size` says, held against the check: on random beds, on both sides of every answer.

use proptest::prelude::*;
use slatwright::brief::{Brief, LayWord, Rack};
use slatwright::check::{Role, Verdict};
use slatwright::choose::{Choice, Design, Made, Part, Question, Sizing, Supply, size, usual_pitches, woods_of};
use slatwright::platform::Platform;
use slatwright::quantity::Length;
use slatwright::tables::Tables;

use uom::si::length::meter as uom_metre;

use super::properties::{Bed, WOODS, beds, config};
use super::support::checked;

fn question(brief: &Brief, p: &Platform, part: Part) -> Question {
    let woods = woods_of(brief, p, part);
    Question {
        part,
        supply: Supply::of_tables(part, p, &woods, [&[], &[]], brief, Tables::embedded()),
        lays: vec![LayWord::Flat, LayWord::Edge],
        gaps: vec![p.slats.gap],
        beams: vec![false],
        pitches: usual_pitches(p.units),
        shown: 2000,
    }
}

fn sized(text: &str, part: Part) -> Option<(Sizing, Platform)> {
    let brief = Brief::read(text);
    let p = Platform::build(&brief, Tables::embedded()).ok()?;
    let q = question(&brief, &p, part);
    let found = size(&Design::new(&brief, Tables::embedded()), &q).expect("it can be built");
    assert_eq!(found.tried, q.choices());
    Some((found, p))
}

/// A length that reads back as it is, to the micrometre.
fn mm(l: Length) -> String {
    format!("{:.6} mm", l.value * 1e3)
}

/// A wood of the random beds by the name that the answer gives it.
fn wood_typed(bed: &Bed, name: &str) -> Option<&'static str> {
    WOODS.into_iter().find(|typed| {
        let alone = bed.drawn().replacen(WOODS[bed.wood], typed, 1);
        super::support::built(&alone).is_some_and(|p| name.starts_with(&p.slats.stick.wood.name()))
    })
}

/// The bed's brief with a choice typed into it. Nothing of `size` is used: the text is read afresh.
fn typed(bed: &Bed, part: Part, c: &Choice) -> Option<String> {
    let text = bed.drawn();
    let (head, rest) = text.split_once("[slats]\n").expect("slats");
    let (slats, rest) = rest.split_once("[cleats]\n").expect("cleats");
    let (cleats, rails) = rest.split_once("[rails]\n").expect("rails");
    match &c.made {
        Made::Sticks { beam: true, .. } => None,
        Made::Sticks { section: [t, w], wood, lay, gap, stock, .. } => {
            let wood = wood_typed(bed, wood)?;
            let size = match stock {
                Some(s) => format!("size = \"{s}\"\nwidth = \"{}\"\n", mm(*w)),
                None => format!("thickness = \"{}\"\nwidth = \"{}\"\n", mm(*t), mm(*w)),
            };
            if part == Part::Rail {
                let (_, ends) = rails.split_once("ends =").expect("ends");
                let rails = format!("wood = {wood}\n{size}ends ={ends}");
                return Some(format!("{head}[slats]\n{slats}[cleats]\n{cleats}[rails]\n{rails}"));
            }
            let lay = if *lay == LayWord::Flat { "flat" } else { "edge" };
            let fixed = slats.contains("fixed = true");
            let gap = Length::new::<uom_metre>(gap.value + 1e-9);
            let slats = format!("wood = {wood}\n{size}lay = \"{lay}\"\ngap = \"{}\"\nfixed = {fixed}\n", mm(gap));
            Some(format!("{head}[slats]\n{slats}[cleats]\n{cleats}[rails]\n{rails}"))
        }
        Made::Screws { screw, pitch, .. } => {
            let key = if screw.contains('/') && !screw.starts_with('#') && !screw.starts_with("1-") {
                "lag"
            } else {
                "screw"
            };
            let (before, _) = cleats.split_once("screws =").expect("screws");
            let row = format!("screws = {{ {key} = \"{screw}\", pitch = \"{}\", first = \"2 in\" }}\n", mm(*pitch));
            Some(format!("{head}[slats]\n{slats}[cleats]\n{before}{row}[rails]\n{rails}"))
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3, ..config() })]

    /// What is said to pass passes, what is said to fail fails, with the ratio that is printed; the counts are
    /// those of the rows; and no shallower stick of the thinnest one's wood and width passes.
    #[test]
    fn a_size_is_what_the_check_says(bed in beds(), part in 0usize..3) {
        let part = [Part::Slat, Part::Rail, Part::Cleat][part];
        let Some((found, _)) = sized(&bed.drawn(), part) else { return Err(TestCaseError::reject("cannot be built")) };
        prop_assert_eq!(found.passing.len(), found.pass);
        let built = found.tried - found.impossible.iter().map(|(_, n)| *n).sum::<usize>().min(found.tried);
        prop_assert!(found.passing.len() + found.failing.len() >= built);
        for (all, passes) in [(&found.passing, true), (&found.failing, false)] {
            prop_assert!(all.iter().all(|c| (c.outcome.carries == Verdict::Pass) == passes));
            let typed: Vec<(&Choice, String)> =
                all.iter().filter_map(|c| typed(&bed, part, c).map(|text| (c, text))).collect();
            // Some of them, from the first to the last.
            for (c, text) in typed.iter().step_by((typed.len() / 8).max(1)) {
                let Some(a) = checked(text) else { return Err(TestCaseError::fail(format!("cannot be built: {text}"))) };
                prop_assert_eq!(a.carries() == Verdict::Pass, passes, "{:?}\n{}", c.made, text);
                let (_, worst) = a.weakest().expect("it was checked");
                let said = c.outcome.weakest.as_ref().expect("it was checked").ratio;
                prop_assert!((worst.ratio - said).abs() <= 1e-6 * said || !said.is_finite(), "{} {said}", worst.ratio);
            }
        }
        if let (Some(t), Some(below)) = (&found.thinnest, &found.below) {
            prop_assert!(t.outcome.carries == Verdict::Pass && below.outcome.carries != Verdict::Pass);
            prop_assert!(below.made.depth() < t.made.depth());
        }
        let volumes: Vec<f64> = found.passing.iter().map(|c| match &c.made {
            Made::Sticks { volume, .. } => volume.value,
            Made::Screws { count, .. } => *count as f64,
        }).collect();
        prop_assert!(volumes.windows(2).all(|w| w[0] <= w[1]), "{volumes:?}");
    }
}

/// The least wood by hand: every choice's volume is count x thickness x width x length.
#[test]
fn wood_is_counted_by_hand() {
    let text = include_str!("../../demo/two.toml");
    let (found, _) = sized(text, Part::Slat).unwrap();
    let first = found.passing.iter().find(|c| matches!(&c.made, Made::Sticks { beam: false, lay: LayWord::Flat, .. }));
    let Made::Sticks { section, pieces, volume, .. } = &first.unwrap().made else { unreachable!() };
    // 60 in clear between the rails; slats reach over the whole of both 1-1/2 in cleats.
    let by_hand = pieces.0 as f64 * section[0].value * section[1].value * 60.0 * 0.0254;
    assert!((volume.value - by_hand).abs() < 1e-9, "{} {by_hand}", volume.value);
}

/// What stops a choice is the sized member's own worst check while that fails, and the weakest link else.
#[test]
fn what_stops_a_choice_is_named_with_its_own_ratio() {
    let (found, _) = sized(include_str!("../../demo/two.toml"), Part::Slat).unwrap();
    let mut others = 0;
    for c in &found.failing {
        let stop = c.stopped_by.as_ref().unwrap();
        assert!(stop.ratio > 1.0, "{:?}", c.made);
        match c.outcome.of_role(Role::Slat) {
            Some(own) if own.ratio > 1.0 => assert_eq!(stop, own),
            _ => {
                others += 1;
                assert_eq!(Some(stop), c.outcome.weakest.as_ref());
            }
        }
    }
    assert!(others < found.failing.len());
    let stops = found.failing.iter().map(|c| c.stopped_by.as_ref().unwrap());
    let order: Vec<(bool, f64)> = stops.map(|w| (w.role == Role::Slat, w.ratio)).collect();
    assert!(order.windows(2).all(|w| w[0] <= w[1]), "{order:?}");
}

/// Every mistake in a rack at once, each where it stands.
#[test]
fn mistakes_in_a_rack_are_all_found() {
    let text = "[[stick]]\nwood = \"spruce-pine-fir no2\"\nsize = \"2x5.5\"\n\n[[stick]]\nwood = \"no such wood\"\n\
                thickness = 1.5\nwidth = \"3-1/2 in\"\nlengths = [\"8 ft\", \"900 ft\"]\n\n[[stick]]\nsize = \"2x4\"\nmass = 3\n\n\
                [[screw]]\nscrew = \"#13 x 3 in\"\n\n[[screw]]\nlag = \"1/4 x 3 in\"\nscrew = \"#10 x 3 in\"\n\n[[srew]]\n";
    let brief = Brief::read(include_str!("../../demo/two.toml"));
    let mistakes = Supply::of_rack(&Rack::read(text), &brief, Tables::embedded()).unwrap_err();
    let said: Vec<(usize, &str)> =
        mistakes.iter().map(|m| (text[..m.span.start].matches('\n').count() + 1, m.message.as_str())).collect();
    for (line, part) in [
        (3, "2x5.5"),
        (6, "no such wood"),
        (7, "`thickness` needs a unit"),
        (9, "no stick is"),
        (11, "`stick` has no `wood`"),
        (13, "no key `mass`"),
        (16, "#13"),
        (19, "`lag` does nothing beside"),
        (22, "no key `srew`"),
    ] {
        assert!(said.iter().any(|(l, m)| *l == line && m.contains(part)), "{line} {part}: {said:?}");
    }
}
