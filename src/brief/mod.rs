//! The brief as typed: one TOML file, every value with the place where it stands.
//!
//! Reading never stops at the first mistake. What can be read is kept, what cannot is noted, and
//! [`crate::platform`] adds the mistakes that only show once values are put together.

mod boards;
mod fields;
mod guard;
mod keys;
mod mistake;
mod read;

pub use crate::syntax::shortened;
pub use boards::{BoardKeys, Boards, LoadWord};
pub use fields::{Typed, nearest};
pub use guard::{
    Edge, FixingKeys, GuardKeys, GuardPostKeys, HeadsOn, InfillKeys, LadderKeys, OpeningKeys, RungEndKeys,
    RungJointWord, RungKeys, Spot,
};
pub use keys::{
    BeamKeys, BracingKeys, Brief, CaseKeys, CleatKeys, DeclaredKeys, DiagonalKeys, EndKeys, EndRailKeys, JointWord,
    KneeKeys, LayWord, LegKeys, MattressKeys, National, PersonKeys, PlatformKeys, PostKeys, RailKeys, RuleFamily,
    ScrewRowKeys, Side, SlatKeys, StickKeys, StudKeys, TopWord, WasherKeys, WoodKeys,
};
pub use mistake::{MOST_MISTAKES, Mistake, Mistakes, render};
pub(crate) use read::CASE_KEYS;
pub use read::{Rack, RackScrew, RackStick};
