//! Checks the slats, cleats, rails and joints of a sleeping platform before they are cut.
//!
//! The modules follow the load's own path, and each uses only those before it:
//!
//! | module | what it holds |
//! |---|---|
//! | [`brief`] | the TOML as typed, every mistake with its place |
//! | [`platform`] | the bed as built: slats, cleats, screws, rails, end joints |
//! | [`load`] | who is on it: people → cases → patches at positions |
//! | [`statics`] | exact beams and the grillage; knows no wood and no bed |
//! | [`rules`] | what wood and screws resist, clause by clause; knows no bed |
//! | [`check`] | demand against capacity, member by member; prints nothing |
//! | [`choose`] | answers before cutting: the check run on a changed brief |
//! | [`report`] | one report, several faces; computes nothing |
//! | [`cli`] | the command line |
//!
//! Leaves that everything may use: [`quantity`] (units), [`source`] (where a number comes from),
//! [`derivation`] (values that remember how they were computed), [`tables`] (handbook tables).
//!
//! ```
//! use slatwright::{brief::Brief, check::check, platform::Platform, tables::Tables};
//!
//! let text = std::fs::read_to_string("demo/child.toml").unwrap();
//! let platform = Platform::build(&Brief::read(&text), Tables::embedded()).expect("no mistakes");
//! let assessment = check(&platform).unwrap();
//! let (member, worst) = assessment.weakest().unwrap();
//! println!("{}: {} at {:.2}", member.id, worst.limit.name(), worst.ratio);
//! ```

pub mod brief;
pub mod check;
pub mod choose;
pub mod cli;
pub mod derivation;
pub mod load;
pub mod platform;
pub mod quantity;
pub mod report;
pub mod rules;
pub mod source;
pub mod statics;
mod syntax;
pub mod tables;
