//! Reading the keys of one table of a brief: each as the kind it must be, unknown ones refused.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::mistake::Mistakes;
use crate::quantity::{self, BendingMoment, Force, Length, Mass, MassDensity, Measured, ReadError, Stress};
use crate::syntax::shortened;

/// Longest text a key may hold, in bytes: a line or two of a title, far more than any name has.
const LONGEST_TEXT: usize = 200;

/// Longest list a key may hold. No source: a bound on the work.
const LONGEST_LIST: usize = 12;

/// A value with the place where it was typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Typed<T> {
    /// The value.
    pub value: T,
    /// Its bytes in the brief.
    pub span: Range<usize>,
}

/// The keys of one table, handed out by name; what is left over at the end was not a key.
pub(super) struct Fields<'t, 'b> {
    name: &'static str,
    table: &'t DeTable<'b>,
    span: Range<usize>,
    asked: Vec<&'static str>,
}

fn too_long<T>(key: &str, v: &Spanned<DeValue<'_>>, m: &mut Mistakes) -> Option<T> {
    m.add(&v.span(), format!("`{key}` is too long"), "", format!("write {LONGEST_TEXT} letters at most"));
    None
}

/// What a value is called in a message.
fn kind(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(f) if f.as_str().parse::<f64>().is_ok_and(f64::is_finite) => "a number with decimals",
        DeValue::Float(_) => "not a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

impl<'t, 'b> Fields<'t, 'b> {
    /// The keys of `table`, which the brief calls `name`.
    pub(super) fn new(name: &'static str, table: &'t DeTable<'b>, span: Range<usize>) -> Self {
        Fields { name, table, span, asked: Vec::new() }
    }

    /// Where the table stands.
    pub(super) fn span(&self) -> &Range<usize> {
        &self.span
    }

    /// The raw value of a key.
    pub(super) fn raw(&mut self, key: &'static str) -> Option<&'t Spanned<DeValue<'b>>> {
        self.asked.push(key);
        self.table.iter().find(|(k, _)| k.get_ref().as_ref() == key).map(|(_, v)| v)
    }

    /// Whether the key is there at all.
    pub(super) fn has(&self, key: &str) -> bool {
        self.table.iter().any(|(k, _)| k.get_ref().as_ref() == key)
    }

    /// Whether every key of the table was asked for, so that none is a slip for another.
    pub(super) fn all_known(&self) -> bool {
        self.table.iter().all(|(k, _)| self.asked.contains(&k.get_ref().as_ref()))
    }

    fn wrong(&self, m: &mut Mistakes, key: &str, v: &Spanned<DeValue<'_>>, want: &str, example: &str) {
        m.add(&v.span(), format!("`{key}` must be {want}"), format!("this is {}", kind(v.get_ref())), example);
    }

    /// Whether a key was meant: it is there, or one so like it is there that it must be a slip of the pen.
    /// To be asked once every key has been asked for.
    fn meant(&self, key: &str) -> bool {
        let slip = |word: &str| !self.asked.contains(&word) && nearest(word, self.asked.iter().copied()) == Some(key);
        self.has(key) || self.table.iter().any(|(k, _)| slip(k.get_ref().as_ref()))
    }

    /// Whether a key was meant but gave no value, which was said already or will be by [`finish`](Self::finish).
    pub(super) fn unread<T>(&self, key: &str, value: &Option<T>) -> bool {
        value.is_none() && self.meant(key)
    }

    /// A text.
    pub(super) fn text(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<String>> {
        let v = self.raw(key)?;
        match v.get_ref() {
            DeValue::String(s) if s.len() <= LONGEST_TEXT => Some(Typed { value: s.to_string(), span: v.span() }),
            DeValue::String(_) => too_long(key, v, m),
            other => {
                let number = match other {
                    DeValue::Integer(i) => i.as_str(),
                    DeValue::Float(f) => f.as_str(),
                    _ => "…",
                };
                self.wrong(m, key, v, "text in quotes", &format!("write {key} = \"{}\"", shortened(number)));
                None
            }
        }
    }

    /// A quantity read by `read`; a bare number is a mistake of its own, and none is ever below nothing.
    fn quantity<Q: Measured>(
        &mut self,
        key: &'static str,
        m: &mut Mistakes,
        read: fn(&str) -> Result<Q, ReadError>,
        units: &[&str],
        example: &str,
    ) -> Option<Typed<Q>> {
        let v = self.raw(key)?;
        let value = self.measured(key, v, m, read, units, example)?;
        Some(Typed { value, span: v.span() })
    }

    /// One quantity under `key`, which may be one of a list.
    fn measured<Q: Measured>(
        &self,
        key: &str,
        v: &Spanned<DeValue<'_>>,
        m: &mut Mistakes,
        read: fn(&str) -> Result<Q, ReadError>,
        units: &[&str],
        example: &str,
    ) -> Option<Q> {
        let like = format!("write it in quotes with its unit, such as \"{example}\" (units: {})", units.join(", "));
        match v.get_ref() {
            DeValue::String(s) if s.len() > LONGEST_TEXT => too_long(key, v, m),
            DeValue::String(s) => match read(s) {
                Ok(value) if value.si() < 0.0 => {
                    m.add(&v.span(), format!("`{key}` is less than nothing"), "", "take the minus away");
                    None
                }
                Ok(value) => Some(value),
                Err(e) => {
                    m.add(&v.span(), format!("`{key}`: {e}"), "", e.help());
                    None
                }
            },
            DeValue::Integer(_) | DeValue::Float(_) => {
                let text = match v.get_ref() {
                    DeValue::Integer(i) => i.to_string(),
                    DeValue::Float(f) => f.to_string(),
                    _ => String::new(),
                };
                // What was typed is the best example, if it is a number a unit can follow.
                let typed = units.iter().map(|u| format!("{text} {u}")).find(|t| read(t).is_ok_and(|q| q.si() > 0.0));
                let help = typed.map_or(like.clone(), |t| like.replace(example, &t));
                m.add(&v.span(), format!("`{key}` needs a unit"), "a bare number", help);
                None
            }
            _ => {
                self.wrong(m, key, v, "a number and a unit in quotes", &like);
                None
            }
        }
    }

    /// A length.
    pub(super) fn length(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<Length>> {
        self.quantity(key, m, quantity::length, &["in", "ft", "mm", "cm", "m"], "3-1/2 in")
    }

    /// A list of lengths, at least one.
    pub(super) fn lengths(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<Vec<Length>>> {
        let v = self.raw(key)?;
        let example = format!("write {key} = [\"40 in\"], each with its unit");
        let DeValue::Array(items) = v.get_ref() else {
            self.wrong(m, key, v, "a list", &example);
            return None;
        };
        if items.is_empty() || items.len() > LONGEST_LIST {
            let message = match items.len() {
                0 => format!("`{key}` is an empty list"),
                n => format!("`{key}` is a list of {n}, more than can be checked"),
            };
            m.add(&v.span(), message, "", format!("{example}, {LONGEST_LIST} at most"));
            return None;
        }
        let mut out = Vec::with_capacity(items.len());
        for item in items.iter() {
            out.push(self.measured(key, item, m, quantity::length, &["in", "ft", "mm", "cm", "m"], "40 in")?);
        }
        Some(Typed { value: out, span: v.span() })
    }

    /// A weight, as a mass.
    pub(super) fn mass(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<Mass>> {
        self.quantity(key, m, quantity::mass, &["lb", "kg"], "180 lb")
    }

    /// A pressure.
    pub(super) fn pressure(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<Stress>> {
        self.quantity(key, m, quantity::pressure, &["psf", "kN/m2", "psi", "MPa"], "30 psf")
    }

    /// A modulus of elasticity.
    pub(super) fn modulus(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<Stress>> {
        self.quantity(key, m, quantity::modulus, &["psi", "MPa", "GPa"], "1.45e6 psi")
    }

    /// A force.
    pub(super) fn force(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<Force>> {
        self.quantity(key, m, quantity::force, &["N", "kN", "lbf"], "2.5 kN")
    }

    /// A moment.
    pub(super) fn moment(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<BendingMoment>> {
        self.quantity(key, m, quantity::moment, &["Nm", "Nmm"], "5.9 Nm")
    }

    /// A density.
    pub(super) fn density(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<MassDensity>> {
        self.quantity(key, m, quantity::density, &["kg/m3"], "350 kg/m3")
    }

    /// A whole number of at least one.
    pub(super) fn count(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<usize>> {
        let v = self.raw(key)?;
        let DeValue::Integer(i) = v.get_ref() else {
            let help = format!("write it without quotes or decimals, such as {key} = 14");
            self.wrong(m, key, v, "a whole number", &help);
            return None;
        };
        match usize::from_str_radix(i.as_str(), i.radix()) {
            Ok(n) if (1..=1000).contains(&n) => Some(Typed { value: n, span: v.span() }),
            _ => {
                m.add(
                    &v.span(),
                    format!("`{key}` cannot be {}", shortened(i.as_str())),
                    "",
                    format!("write a whole number from 1 to 1000, such as {key} = 14"),
                );
                None
            }
        }
    }

    /// A plain number, such as a factor.
    pub(super) fn number(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<f64>> {
        let v = self.raw(key)?;
        let number = match v.get_ref() {
            DeValue::Integer(i) => i64::from_str_radix(i.as_str(), i.radix()).ok().map(|n| n as f64),
            DeValue::Float(f) => f.as_str().parse::<f64>().ok(),
            _ => None,
        };
        match number {
            Some(n) if n.is_finite() => Some(Typed { value: n, span: v.span() }),
            _ => {
                self.wrong(m, key, v, "a plain number", &format!("write it without quotes, such as {key} = 1.2"));
                None
            }
        }
    }

    /// True or false.
    pub(super) fn flag(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Typed<bool>> {
        let v = self.raw(key)?;
        match v.get_ref() {
            DeValue::Boolean(b) => Some(Typed { value: *b, span: v.span() }),
            _ => {
                self.wrong(m, key, v, "true or false", &format!("write {key} = true, without quotes"));
                None
            }
        }
    }

    /// One of a few words.
    pub(super) fn choice<T: Copy>(
        &mut self,
        key: &'static str,
        m: &mut Mistakes,
        choices: &[(&'static str, T)],
    ) -> Option<Typed<T>> {
        let typed = self.text(key, m)?;
        if let Some((_, value)) = choices.iter().find(|(w, _)| *w == typed.value) {
            return Some(Typed { value: *value, span: typed.span });
        }
        let words: Vec<String> = choices.iter().map(|(w, _)| format!("\"{w}\"")).collect();
        m.add(
            &typed.span,
            format!("`{key}` cannot be \"{}\"", shortened(&typed.value)),
            "",
            format!("write {}", listed(&words, "or")),
        );
        None
    }

    /// A list of some of a few words, each once.
    pub(super) fn choices<T: Copy + PartialEq>(
        &mut self,
        key: &'static str,
        m: &mut Mistakes,
        choices: &[(&'static str, T)],
    ) -> Option<Typed<Vec<T>>> {
        let v = self.raw(key)?;
        let words: Vec<String> = choices.iter().map(|(w, _)| format!("\"{w}\"")).collect();
        let help = format!("write {key} = [{}], those that apply", words.join(", "));
        let DeValue::Array(items) = v.get_ref() else {
            self.wrong(m, key, v, "a list of words", &help);
            return None;
        };
        let mut out: Vec<T> = Vec::new();
        for item in items.iter() {
            let word = match item.get_ref() {
                DeValue::String(s) => s.as_ref(),
                _ => "",
            };
            match choices.iter().find(|(w, _)| *w == word) {
                Some((_, value)) if !out.contains(value) => out.push(*value),
                Some(_) => {
                    m.add(&item.span(), format!("\"{word}\" stands twice in `{key}`"), "", "take one of them out");
                    return None;
                }
                None => {
                    m.add(&item.span(), format!("`{key}` cannot hold this"), "", help);
                    return None;
                }
            }
        }
        if out.is_empty() {
            m.add(&v.span(), format!("`{key}` is an empty list"), "", help);
            return None;
        }
        Some(Typed { value: out, span: v.span() })
    }

    /// A table inside this one.
    pub(super) fn table(&mut self, key: &'static str, m: &mut Mistakes) -> Option<Fields<'t, 'b>> {
        let v = self.raw(key)?;
        match v.get_ref() {
            DeValue::Table(t) => Some(Fields::new(key, t, v.span())),
            _ => {
                let help = match self.name.is_empty() {
                    true => format!("write [{key}] as a heading, in single brackets, with its keys below"),
                    false => format!("write {key} = {{ … }} with its keys between the braces"),
                };
                self.wrong(m, key, v, "a table", &help);
                None
            }
        }
    }

    /// Every table under a `[[key]]` heading.
    pub(super) fn tables(&mut self, key: &'static str, m: &mut Mistakes) -> Vec<Fields<'t, 'b>> {
        let Some(v) = self.raw(key) else { return Vec::new() };
        let DeValue::Array(items) = v.get_ref() else {
            let help = format!("write a [[{key}]] heading, with double brackets, for each one");
            self.wrong(m, key, v, "a list of tables", &help);
            return Vec::new();
        };
        if items.is_empty() {
            let help = format!("write a [[{key}]] heading, with double brackets, for each one");
            m.add(&v.span(), format!("`{key}` is an empty list"), "", help);
        }
        let mut out = Vec::new();
        for item in items.iter() {
            match item.get_ref() {
                DeValue::Table(t) => out.push(Fields::new(key, t, item.span())),
                _ => self.wrong(m, key, item, "a table", &format!("write a [[{key}]] heading for each one")),
            }
        }
        out
    }

    /// Says that a key is missing, unless it is there and wrong, which was said already.
    /// To be asked once every key has been asked for.
    pub(super) fn missing(&self, key: &str, m: &mut Mistakes, help: &str) {
        if !self.meant(key) {
            let message = if self.name.is_empty() {
                format!("the brief has no `{key}`")
            } else {
                format!("`{}` has no `{key}`", self.name)
            };
            m.add(&self.span, message, format!("`{key}` is missing here"), help);
        }
    }

    /// Refuses keys that do nothing beside another, all in one mistake at the first of them.
    pub(super) fn idle(&self, keys: &[&str], beside: &str, m: &mut Mistakes, help: &str) {
        let mut found: Vec<(&str, Range<usize>)> = Vec::new();
        for (k, v) in self.table.iter() {
            found.extend(keys.iter().find(|key| **key == k.get_ref().as_ref()).map(|key| (*key, v.span())));
        }
        found.sort_by_key(|(_, span)| span.start);
        let words: Vec<String> = found.iter().map(|(key, _)| format!("`{key}`")).collect();
        if let Some((_, span)) = found.first() {
            let verb = if found.len() == 1 { "does" } else { "do" };
            m.add(span, format!("{} {verb} nothing beside {beside}", listed(&words, "and")), "", help);
        }
    }

    /// Refuses every key that was not asked for.
    pub(super) fn finish(self, m: &mut Mistakes) {
        for (k, _) in self.table.iter() {
            let word = k.get_ref().as_ref();
            if self.asked.contains(&word) {
                continue;
            }
            let place = if self.name.is_empty() { "the brief".to_owned() } else { format!("`{}`", self.name) };
            let help = match nearest(word, self.asked.iter().copied()) {
                Some(key) => format!("the nearest key is `{key}`"),
                None => {
                    let mut keys = self.asked.clone();
                    keys.sort_unstable();
                    keys.dedup();
                    format!("keys here: {}", keys.join(", "))
                }
            };
            m.add(&k.span(), format!("{place} has no key `{}`", shortened(word)), "unknown key", help);
        }
    }
}

/// The word most like the one typed, if any is near enough to be meant.
pub fn nearest<'a>(word: &str, words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    // One letter wrong, missing, added or swapped is a slip however short the word.
    let likeness = |w: &str| match strsim::damerau_levenshtein(word, w) {
        0 | 1 if w.len() > 2 => 1.0,
        _ => strsim::jaro_winkler(word, w),
    };
    words
        .map(|w| (likeness(w), w))
        .filter(|(score, _)| *score > 0.78)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, w)| w)
}

/// The words with commas, and another word before the last.
fn listed(words: &[String], join: &str) -> String {
    match words {
        [most @ .., last] if !most.is_empty() => format!("{} {join} {last}", most.join(", ")),
        _ => words.concat(),
    }
}
