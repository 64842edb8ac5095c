//! Bolts through a rail's end and its post.

use super::Builder;
use crate::brief::{EndKeys, Typed, WasherKeys};
use crate::platform::stick::{nominal_holding, sane};
use crate::platform::{Bolts, Stick, WoodChoice};
use crate::quantity::unit::{METRE_PER_INCH, inch, millimetre};
use crate::quantity::{Length, fraction_of_inch};
use crate::tables::fasteners::{Bolt, Washer};

/// Bolts that one end of a rail may have.
const MOST: usize = 6;

impl Builder<'_> {
    pub(super) fn bolts(&mut self, k: &EndKeys, rail: &Stick, piece: &str, wood: &WoodChoice) -> Option<Bolts> {
        let typed = k.bolt.as_ref()?;
        let bolt = match self.tables.fasteners().bolt(&typed.value) {
            Ok(bolt) => bolt,
            Err(e) => {
                self.m.add(&typed.span, e.to_string(), "", e.help());
                return None;
            }
        };
        let washer = self.washer(k.washer.as_ref(), &bolt)?;
        let count = k.count.as_ref()?;
        if count.value > MOST {
            let message = format!("{} bolts do not fit in a {piece}'s end", count.value);
            self.m.add(&count.span, message, "", format!("{MOST} at most"));
            return None;
        }
        let post = self.bolted_post(k, wood)?;
        let bolts = Bolts { bolt: Bolt { washer, ..bolt }, count: count.value, post: Box::new(post) };
        if bolts.fit(rail) {
            return Some(bolts);
        }
        let [least, most] = bolts.bolt.lengths_through(rail.thickness + bolts.post.thickness);
        let (what, help) = if bolts.bolt.length < least {
            ("are too short for the", format!("use bolts of {} or longer", both(least)))
        } else {
            ("have no thread where their nuts come on the", format!("use bolts from {} to {}", both(least), both(most)))
        };
        self.m.add(&typed.span, format!("these bolts {what} {piece}, the post, two washers and a nut"), "", help);
        None
    }

    /// The designation of a bolt that must fit through so much wood.
    pub(super) fn bolt_through(&mut self, typed: &Typed<String>, wood: Length) -> Option<String> {
        let bolt = match self.tables.fasteners().bolt(&typed.value) {
            Ok(bolt) => bolt,
            Err(e) => {
                self.m.add(&typed.span, e.to_string(), "", e.help());
                return None;
            }
        };
        if bolt.fits(wood) {
            return Some(bolt.designation);
        }
        let [least, most] = bolt.lengths_through(wood).map(both);
        let help = format!("use bolts from {least} to {most}");
        self.m.add(&typed.span, "these bolts do not fit the rail, the post, two washers and a nut", "", help);
        None
    }

    /// The post that bolts pass through: that of `[posts]`, or a square one as thick as the brief says.
    fn bolted_post(&mut self, k: &EndKeys, wood: &WoodChoice) -> Option<Stick> {
        match (&self.post, &k.through) {
            (Some(post), None) => post.clone(),
            (Some(_), Some(t)) => {
                self.m.add(&t.span, "the posts' thickness is given twice", "", "take `through` out: [posts] has it");
                None
            }
            (None, Some(t)) => {
                sane("through", t, inch(0.25), inch(16.0), &mut self.m)?;
                let side = t.value;
                self.assume(format!("the posts that bolts pass through are {} square", fraction_of_inch(side)));
                let nominal = nominal_holding(side, side, self.tables);
                let nominal = nominal.unwrap_or((side.value / METRE_PER_INCH, side.value / METRE_PER_INCH));
                Some(Stick {
                    wood: wood.clone(),
                    thickness: side,
                    width: side,
                    nominal,
                    stock: None,
                    incised: false,
                    measured: None,
                })
            }
            (None, None) => {
                let help = "write through = \"3-1/2 in\", the thickness of the post the bolts pass through, or [posts]";
                self.m.add(&k.span, "the bolts pass through a post that is not described", "", help);
                None
            }
        }
    }

    /// The washers as typed, or those that go with the bolt.
    fn washer(&mut self, k: Option<&WasherKeys>, bolt: &Bolt) -> Option<Washer> {
        let own = bolt.washer;
        let Some(k) = k else {
            self.assume(format!(
                "washers under the heads and nuts of bolts {} are {} across and {} thick",
                bolt.designation,
                both(own.across),
                both(own.thickness)
            ));
            return Some(own);
        };
        let (across, thickness) = (k.across.as_ref()?, k.thickness.as_ref()?);
        // One that is hardly wider than its hole bears on nothing.
        let across_ok = sane("across", across, own.hole * 1.2, bolt.diameter * 12.0, &mut self.m);
        let thickness_ok = sane("thickness", thickness, inch(0.0625), inch(0.75), &mut self.m);
        across_ok.and(thickness_ok)?;
        Some(Washer { across: across.value, thickness: thickness.value, hole: own.hole })
    }
}

/// A length in both systems, to the tenth of a millimetre.
fn both(v: Length) -> String {
    format!("{} ({:.1} mm)", fraction_of_inch(v), (v / millimetre(1.0)).value)
}
