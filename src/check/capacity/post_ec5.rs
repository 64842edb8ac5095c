//! Posts rated by Eurocode 5.

use super::limit_state::Ec5;
use super::{Part, Posted, Standing};
use crate::derivation::{Worked, given, plain};
use crate::load::Duration;
use crate::quantity::{BendingMoment, Force, Length, Stress};
use crate::rules::RuleError;
use crate::rules::allowable_stress::column::{Ends, effective_length};
use crate::rules::limit_state::bending::redistribution;
use crate::rules::limit_state::combined::{Bending, Utilised, lateral_buckling_and_compression};
use crate::rules::limit_state::design::Material;
use crate::rules::limit_state::section::{Axis, Section};
use crate::rules::limit_state::stability::{BeamLoad, LoadHeight, Unbraced};
use crate::rules::limit_state::timber::Timber;
use crate::source::{Citation, Seen};

const fn clause(locator: &'static str, seen: Seen) -> Citation {
    Citation::new("EN 1995-1-1:2004+A2:2014", locator, seen)
}

/// A post, its load off its axis both ways.
pub(super) struct RatedPost {
    timber: Result<Timber, RuleError>,
    section: Section,
    /// From its axis to the load, along the depth and along the breadth.
    off_axis: [Worked<Length>; 2],
    length: Length,
    ends: Ends,
    rules: Ec5,
}

impl RatedPost {
    /// EN 1995-1-1 has no table of buckling lengths: the recommended ones of the NDS are taken.
    pub(super) fn new(standing: &Standing<'_>, timber: Result<Timber, RuleError>, rules: Ec5) -> RatedPost {
        let [(depth, along_depth), (breadth, along_breadth)] = standing.section();
        RatedPost {
            timber,
            section: Section { breadth, depth },
            off_axis: [along_depth, along_breadth],
            length: standing.length,
            ends: if standing.sways { Ends::PinnedTranslating } else { Ends::PinnedPinned },
            rules,
        }
    }

    fn timber(&self) -> Result<&Timber, RuleError> {
        self.timber.as_ref().map_err(Clone::clone)
    }
}

impl Posted for RatedPost {
    /// EN 1995-1-1 sets no limit of its own.
    fn slenderness(&self) -> Result<Option<Part>, RuleError> {
        Ok(None)
    }

    fn buckling(&self, d: Duration, force: &Worked<Force>) -> Result<Part, RuleError> {
        let (timber, section, conditions) = (self.timber()?, &self.section, self.rules.conditions(d));
        let length = || effective_length(self.ends, self.length);
        let bent = |axis, e: &Worked<Length>, symbols: [&'static str; 2]| {
            let moment: Worked<BendingMoment> =
                (force.clone() * e.clone()).step(symbols[0], clause("6.3.2", Seen::Memory));
            (moment / section.section_modulus(axis)).step(symbols[1], clause("6.1.6", Seen::Memory))
        };
        let free =
            Unbraced { length: self.length, load: BeamLoad::ConstantMoment, height: LoadHeight::CompressionEdge };
        let weak = Section { breadth: section.depth, depth: section.breadth };
        let bending = Bending {
            y: Utilised {
                stress: bent(Axis::Y, &self.off_axis[0], ["My,d", "σm,y,d"]),
                strength: timber.bending(section, &conditions, None)?,
            },
            z: Utilised {
                stress: bent(Axis::Z, &self.off_axis[1], ["Mz,d", "σm,z,d"]),
                strength: timber.bending(&weak, &conditions, None)?,
            },
            km: redistribution(Material::SolidTimber),
        };
        let compression = Utilised {
            stress: (force.clone() / section.area()).step("σc,0,d", clause("(6.2)", Seen::Secondary)),
            strength: timber.compression(section, &conditions, None)?,
        };
        let kc_z = timber.buckling(section, Axis::Z, length())?;
        let kc_y = timber.buckling(section, Axis::Y, length())?;
        let mut most = bending.with_buckling(&compression, kc_y, kc_z.clone());
        if section.depth > section.breadth {
            // The strength with kcrit in it stands for both.
            let tipped = Utilised { strength: timber.bending(section, &conditions, Some(&free))?, ..bending.y };
            most = most.max(lateral_buckling_and_compression(&tipped, plain(1.0), &compression, kc_z));
            most = most.step("utilisation", clause("(6.23), (6.24), (6.35)", Seen::Secondary));
        }
        Ok([most, plain(1.0).step("at most", clause("6.3.2(3)", Seen::Secondary))])
    }

    fn pulled(&self, d: Duration, force: &Worked<Force>, hole: Length) -> Result<Part, RuleError> {
        let (timber, conditions) = (self.timber()?, self.rules.conditions(d));
        let net = Section { breadth: self.section.breadth, depth: self.section.depth - hole };
        if net.depth <= Length::default() {
            return Err(RuleError::not_covered("a brace that its screw cuts through", "use a wider one"));
        }
        let flat = Section { breadth: net.depth, depth: net.breadth };
        let moment: Worked<BendingMoment> =
            (force.clone() * self.off_axis[1].clone()).step("Mz,d", clause("6.2.3", Seen::Memory));
        let bending = Bending {
            y: Utilised {
                stress: given("σm,y,d", Stress::default()),
                strength: timber.bending(&net, &conditions, None)?,
            },
            z: Utilised {
                stress: (moment / net.section_modulus(Axis::Z)).step("σm,z,d", clause("6.1.6", Seen::Memory)),
                strength: timber.bending(&flat, &conditions, None)?,
            },
            km: redistribution(Material::SolidTimber),
        };
        let tension = Utilised {
            stress: (force.clone() / net.area()).step("σt,0,d", clause("(6.1)", Seen::Secondary)),
            strength: timber.tension(&net, &conditions)?,
        };
        Ok([bending.with_tension(&tension), plain(1.0).step("at most", clause("6.2.3", Seen::Memory))])
    }

    fn end_bearing(&self, d: Duration) -> Result<Worked<Stress>, RuleError> {
        self.timber()?.compression(&self.section, &self.rules.conditions(d), None)
    }

    fn end_stress(&self, force: Worked<Force>, [one, other]: [Length; 2]) -> Worked<Stress> {
        (force / (given("b", one) * given("ℓ", other))).step("σc,0,d", clause("(6.2)", Seen::Secondary))
    }
}
