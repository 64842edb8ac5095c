//! Posts rated by US allowable stress design.

use super::allowable_stress::duration;
use super::{Part, Posted, Standing};
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::quantity::{Force, Length, Stress};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bending::{
    LoadCase, Unbraced, critical_bending_stress, effective_length as effective_span, slenderness as beam_slenderness,
};
use crate::rules::allowable_stress::column::{
    Column, Ends, critical_compression_stress, effective_length, most_slender, slenderness_ratio,
};
use crate::rules::allowable_stress::combined::{Eccentric, eccentric_compression};
use crate::rules::allowable_stress::factors::Conditions;
use crate::rules::allowable_stress::section::Section;
use crate::rules::allowable_stress::wood::{Face, Piece, Wood};
use crate::source::{Citation, Seen};

const END_GRAIN: Citation = Citation::new("NDS 2018", "3.10.1.3", Seen::Secondary);
const TENSION: Citation = Citation::new("NDS 2018", "3.8.1, 3.9.1", Seen::Memory);
const STATICS: Citation = Citation::new("statics", "", Seen::Memory);
const COMBINED: Citation = Citation::new("NDS 2018", "15.4.1", Seen::Memory);

/// A post, its load off its axis both ways.
pub(super) struct RatedPost {
    wood: Result<Wood, RuleError>,
    /// As it bends in the direction of its depth.
    piece: Piece,
    /// From its axis to the load, along the depth and along the breadth.
    off_axis: [Worked<Length>; 2],
    length: Length,
    ends: Ends,
    conditions: Conditions,
}

impl RatedPost {
    /// A post that sways stands on the floor as on a pin, its top kept from turning by the rail; any other
    /// is pinned at both ends.
    pub(super) fn new(standing: &Standing<'_>, wood: Result<Wood, RuleError>, conditions: Conditions) -> RatedPost {
        let [(depth, e1), (breadth, e2)] = standing.section();
        RatedPost {
            wood,
            piece: Piece { section: Section { breadth, depth }, nominal: standing.stick.nominal, face: Face::Edgewise },
            off_axis: [e1, e2],
            length: standing.length,
            ends: if standing.sways { Ends::PinnedTranslating } else { Ends::PinnedPinned },
            conditions,
        }
    }

    fn wood(&self) -> Result<&Wood, RuleError> {
        self.wood.as_ref().map_err(Clone::clone)
    }

    fn column(&self) -> Column {
        let le = effective_length(self.ends, self.length);
        Column { along_depth: le.clone(), along_breadth: le }
    }

    /// `FbE` over the whole length, which nothing keeps from bowing sideways.
    fn critical_bending(&self, emin: Worked<Stress>) -> Result<Worked<Stress>, RuleError> {
        let free = Unbraced { length: self.length, load: LoadCase::Other };
        let section = &self.piece.section;
        Ok(critical_bending_stress(emin, beam_slenderness(effective_span(&free, section), section)?))
    }
}

impl Posted for RatedPost {
    fn slenderness(&self) -> Result<Option<Part>, RuleError> {
        Ok(Some([slenderness_ratio(&self.column(), &self.piece.section)?, most_slender()]))
    }

    /// Where the compression alone is more than the post can take, that is the answer; the interaction
    /// has none there.
    fn buckling(&self, d: Duration, force: &Worked<Force>) -> Result<Part, RuleError> {
        let (wood, section, d) = (self.wood()?, &self.piece.section, duration(d));
        let allowed = wood.compression(&self.piece, &self.conditions, d, Some(&self.column()))?;
        let fc = (force.clone() / section.area()).step("fc", Citation::new("NDS 2018", "3.6.3", Seen::Memory));
        let alone = (fc.clone() / allowed.clone()).step("fc/Fc'", Citation::new("NDS 2018", "3.6.3", Seen::Memory));
        let most = || plain(1.0).step("at most", COMBINED);
        if alone.value.value > 1.0 {
            return Ok([alone, most()]);
        }
        let emin = wood.modulus_for_stability(&self.piece, &self.conditions)?;
        let le = effective_length(self.ends, self.length);
        let slender = |symbol, along: Worked<Length>| (le.clone() / along).step(symbol, COMBINED);
        let flat = Piece {
            section: Section { breadth: section.depth, depth: section.breadth },
            face: Face::Flatwise,
            ..self.piece
        };
        let free = Unbraced { length: self.length, load: LoadCase::Other };
        let turned =
            |symbol, e: &Worked<Length>, along: Worked<Length>| (plain(6.0) * e.clone() / along).step(symbol, COMBINED);
        let interaction = eccentric_compression(&Eccentric {
            compression: fc,
            allowable_compression: allowed,
            critical_1: critical_compression_stress(emin.clone(), slender("le1/d1", section.d())),
            critical_2: critical_compression_stress(emin.clone(), slender("le2/d2", section.b())),
            critical_bending: self.critical_bending(emin)?,
            turned_1: turned("6 e1/d1", &self.off_axis[0], section.d()),
            allowable_bending_1: wood.bending(&self.piece, &self.conditions, d, Some(&free))?,
            turned_2: turned("6 e2/d2", &self.off_axis[1], section.b()),
            allowable_bending_2: wood.bending(&flat, &self.conditions, d, None)?,
        })?;
        Ok([interaction, most()])
    }

    /// `ft/Ft' + fb/Fb*`, both on the net section; the wood bends about its flat side, which nothing tips.
    fn pulled(&self, d: Duration, force: &Worked<Force>, hole: Length) -> Result<Part, RuleError> {
        let (wood, section, d) = (self.wood()?, &self.piece.section, duration(d));
        let net = given("d", section.depth) - given("D", hole);
        if net.value <= Length::default() {
            return Err(RuleError::not_covered("a brace that its screw cuts through", "use a wider one"));
        }
        let area = given("b", section.breadth) * net;
        let ft = (force.clone() / area).step("ft", TENSION);
        let fb = (ft.clone() * plain(6.0) * self.off_axis[1].clone() / given("b", section.breadth)).step("fb", STATICS);
        let flat = Piece {
            section: Section { breadth: section.depth, depth: section.breadth },
            face: Face::Flatwise,
            ..self.piece
        };
        let tension = wood.tension(&self.piece, &self.conditions, d)?;
        let bending = wood.bending(&flat, &self.conditions, d, None)?;
        Ok([(ft / tension + fb / bending).step("ft/Ft' + fb/Fb*", TENSION), plain(1.0).step("at most", TENSION)])
    }

    /// Three quarters of `Fc*`, above which the end grain needs a metal plate.
    fn end_bearing(&self, d: Duration) -> Result<Worked<Stress>, RuleError> {
        let star = self.wood()?.compression(&self.piece, &self.conditions, duration(d), None)?;
        Ok((plain(0.75) * star).step("0.75 Fc*", END_GRAIN))
    }

    fn end_stress(&self, force: Worked<Force>, [one, other]: [Length; 2]) -> Worked<Stress> {
        (force / (given("b", one) * given("ℓb", other))).step("fc", END_GRAIN)
    }
}
