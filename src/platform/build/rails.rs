//! The rails, each with its own changes.

use super::Builder;
use crate::brief::RailKeys;
use crate::platform::Rail;
use crate::platform::stick::stick;
use crate::quantity::Length;

impl Builder<'_> {
    pub(super) fn rails(&mut self, k: &RailKeys, length: Option<Length>) -> [Option<Rail>; 2] {
        [k.left.as_deref(), k.right.as_deref()].map(|change| self.rail(k, change, length))
    }

    fn rail(&mut self, base: &RailKeys, change: Option<&RailKeys>, length: Option<Length>) -> Option<Rail> {
        let keys = match change {
            Some(c) => c.stick.over(&base.stick),
            None => base.stick.clone(),
        };
        let stick = stick(&keys, "rails", self.rules, self.tables, &mut self.m)?;
        // A side that names its own support replaces the common one; otherwise it inherits it.
        let own = change.filter(|c| c.ends.is_some() || c.studs.is_some());
        let (ends, studs) = match own {
            Some(c) => (c.ends.as_ref(), c.studs.as_ref()),
            None => (base.ends.as_ref(), base.studs.as_ref()),
        };
        if ends.is_none() && studs.is_none() {
            return None;
        }
        let had_ends = ends.is_some();
        let ends = ends.and_then(|e| self.end_joint(e, &stick, "rail"));
        let had_studs = studs.is_some();
        let studs = match (studs, length) {
            (Some(s), Some(l)) => self.studs(s, &stick, l, had_ends),
            _ => None,
        };
        (had_ends == ends.is_some() && (had_studs == studs.is_some() || length.is_none())).then_some(Rail {
            stick,
            ends,
            studs,
        })
    }
}
