//! The answer for a program.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::{Answer, board_feet, bought};
use crate::brief::LayWord;
use crate::choose::{Choice, Made};
use crate::report::answer::{WeakJson, metres, pretty, rules_word, weak_json};
use crate::report::json::{VERSION, ValueJson, six};

/// One choice.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChoiceJson {
    /// `pass`, `fail` or `not checked`.
    pub verdict: &'static str,
    /// Slats, rails or screws.
    pub count: usize,
    /// Of a stick.
    pub thickness: Option<ValueJson>,
    /// Of a stick.
    pub width: Option<ValueJson>,
    /// Stock size of a stick, if it has one.
    pub stock: Option<String>,
    /// Wood of a stick.
    pub wood: Option<String>,
    /// `flat` or `edge`.
    pub lay: Option<&'static str>,
    /// Cut length of one piece.
    pub length: Option<ValueJson>,
    /// Between slats.
    pub gap: Option<ValueJson>,
    /// Whether a centre beam carries the slats.
    pub centre_beam: Option<bool>,
    /// Cubic metres, the centre beam's wood with it.
    pub wood_used: Option<ValueJson>,
    /// The screw.
    pub screw: Option<String>,
    /// From screw to screw, at most.
    pub pitch: Option<ValueJson>,
    /// Of a choice that passes the check nearest to its limit; of one that does not, what stops it.
    pub governed_by: Option<WeakJson>,
}

/// Pieces from one length of stock.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CuttingJson {
    /// The length of stock.
    pub stock: ValueJson,
    /// Pieces from one stick.
    pub from_one: usize,
    /// Sticks if all are of this length.
    pub sticks: usize,
}

/// So many sticks of one length.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SticksJson {
    /// The length.
    pub length: ValueJson,
    /// How many.
    pub count: usize,
}

/// What to buy for the first choice that passes.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PurchaseJson {
    /// How many pieces.
    pub pieces: usize,
    /// How long each.
    pub length: ValueJson,
    /// What the saw takes.
    pub kerf: ValueJson,
    /// What comes off each end of a stick.
    pub trim: ValueJson,
    /// The least length of stock.
    pub buy: Vec<SticksJson>,
    /// Board feet of that by nominal size.
    pub board_feet: Option<f64>,
    /// Cubic metres of that as it measures.
    pub volume: Option<ValueJson>,
    /// Each length of stock alone.
    pub each: Vec<CuttingJson>,
}

/// Choices that cannot be built.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LeftOutJson {
    /// Why.
    pub why: String,
    /// How many.
    pub count: usize,
}

/// The answer to `size`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright sizes")]
pub struct SizingJson {
    /// Version of this form.
    pub slatwright: u32,
    /// `size`.
    pub answer: &'static str,
    /// Title from the brief.
    pub title: String,
    /// `asd` or `ec5`.
    pub rules: &'static str,
    /// `slats`, `rails` or `cleats`.
    pub member: &'static str,
    /// How many choices were tried.
    pub tried: usize,
    /// How many of them pass.
    pub pass: usize,
    /// How many have no verdict.
    pub not_checked: usize,
    /// Verdict on the brief as it is.
    pub drawn: &'static str,
    /// Its weakest link.
    pub drawn_weakest: Option<WeakJson>,
    /// The shallowest slats or rails that pass.
    pub thinnest: Option<ChoiceJson>,
    /// The next shallower of the same wood and width.
    pub next_thinner: Option<ChoiceJson>,
    /// Choices that pass, what takes least first.
    pub passing: Vec<ChoiceJson>,
    /// Choices that do not pass, the nearest first.
    pub failing: Vec<ChoiceJson>,
    /// Choices that cannot be built.
    pub left_out: Vec<LeftOutJson>,
    /// What to buy for the first that passes.
    pub purchase: Option<PurchaseJson>,
    /// What was taken for granted to make the choices.
    pub notes: Vec<String>,
}

fn cubic_metres(v: uom::si::f64::Volume) -> ValueJson {
    ValueJson { value: six(v.value), unit: "m3" }
}

fn choice(c: &Choice) -> ChoiceJson {
    let base = ChoiceJson {
        verdict: c.outcome.carries.word(),
        count: 0,
        thickness: None,
        width: None,
        stock: None,
        wood: None,
        lay: None,
        length: None,
        gap: None,
        centre_beam: None,
        wood_used: None,
        screw: None,
        pitch: None,
        governed_by: c.stopped_by.as_ref().map(weak_json),
    };
    match &c.made {
        Made::Sticks { section: [t, w], stock, wood, lay, pieces, gap, beam, volume, .. } => ChoiceJson {
            count: pieces.0,
            thickness: Some(metres(*t)),
            width: Some(metres(*w)),
            stock: stock.clone(),
            wood: Some(wood.clone()),
            lay: Some(if *lay == LayWord::Flat { "flat" } else { "edge" }),
            length: Some(metres(pieces.1)),
            gap: Some(metres(*gap)),
            centre_beam: Some(*beam),
            wood_used: Some(cubic_metres(*volume)),
            ..base
        },
        Made::Screws { screw, pitch, count, .. } => {
            ChoiceJson { count: *count, screw: Some(screw.clone()), pitch: Some(metres(*pitch)), ..base }
        }
    }
}

fn purchase(a: &Answer<'_>) -> Option<PurchaseJson> {
    let (p, first) = (a.purchase?, a.sizing.passing.first()?);
    Some(PurchaseJson {
        pieces: p.pieces.0,
        length: metres(p.pieces.1),
        kerf: metres(p.allowance.kerf),
        trim: metres(p.allowance.trim),
        buy: p.least.iter().map(|(l, n)| SticksJson { length: metres(*l), count: *n }).collect(),
        board_feet: board_feet(&first.made, p).map(six),
        volume: bought(&first.made, p).map(cubic_metres),
        each: p
            .each
            .iter()
            .map(|c| CuttingJson { stock: metres(c.stock), from_one: c.from_one, sticks: c.sticks })
            .collect(),
    })
}

/// The answer as JSON.
pub fn json(a: &Answer<'_>) -> String {
    let s = a.sizing;
    pretty(&SizingJson {
        slatwright: VERSION,
        answer: "size",
        title: a.platform.title.clone(),
        rules: rules_word(a.platform.rules),
        member: s.part.word(),
        tried: s.tried,
        pass: s.pass,
        not_checked: s.unchecked,
        drawn: s.drawn.carries.word(),
        drawn_weakest: s.drawn.weakest.as_ref().map(weak_json),
        thinnest: s.thinnest.as_ref().map(choice),
        next_thinner: s.below.as_ref().map(choice),
        passing: s.passing.iter().map(choice).collect(),
        failing: s.failing.iter().map(choice).collect(),
        left_out: s.impossible.iter().map(|(why, n)| LeftOutJson { why: why.clone(), count: *n }).collect(),
        purchase: purchase(a),
        notes: a.notes.to_vec(),
    })
}

/// The JSON Schema of that answer.
pub fn schema() -> Schema {
    schema_for!(SizingJson)
}

/// A row a choice, lengths in metres: what passes, then what does not.
pub fn csv(a: &Answer<'_>) -> String {
    let mut out = String::from(
        "verdict,count,thickness_m,width_m,stock,wood,lay,gap_m,centre_beam,wood_used_m3,screw,pitch_m,ratio,member,limit,case\n",
    );
    for c in a.sizing.passing.iter().chain(&a.sizing.failing) {
        let j = choice(c);
        let value = |v: &Option<ValueJson>| v.as_ref().map_or(String::new(), |v| v.value.to_string());
        let word = |v: &Option<String>| v.as_ref().map_or(String::new(), |v| format!("\"{}\"", v.replace('"', "\"\"")));
        let beam = j.centre_beam.map_or(String::new(), |b| b.to_string());
        let weak = j.governed_by.as_ref();
        let ratio = weak.and_then(|w| w.ratio).map_or(String::new(), |r| r.to_string());
        let [member, limit, case] = weak.map_or([""; 3], |w| [w.member.as_str(), w.limit, w.case]);
        let row = [
            j.verdict.to_owned(),
            j.count.to_string(),
            value(&j.thickness),
            value(&j.width),
            word(&j.stock),
            word(&j.wood),
            j.lay.unwrap_or_default().to_owned(),
            value(&j.gap),
            beam,
            value(&j.wood_used),
            word(&j.screw),
            value(&j.pitch),
            ratio,
            word(&Some(member.to_owned())),
            word(&Some(limit.to_owned())),
            word(&Some(case.to_owned())),
        ];
        out.push_str(&row.join(","));
        out.push('\n');
    }
    out
}
