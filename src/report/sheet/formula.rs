//! Expressions as formulas: fractions with a bar, roots, powers, symbols with their index.

use crate::derivation::{Expression, Shape};
use crate::quantity::UnitSystem;

/// A formula, ready to be set.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Formula {
    Symbol(Symbol),
    /// A number with its unit.
    Value(String),
    Row(Vec<Formula>),
    Operator(&'static str),
    Fraction(Box<Formula>, Box<Formula>),
    Power(Box<Formula>, String),
    Root(Box<Formula>),
    /// `min` or `max` of several.
    Of(&'static str, Vec<Formula>),
    Bracketed(Box<Formula>),
    /// A bracket or comma of something too wide for one line.
    Mark(String),
}

/// Letters beyond which brackets and the arguments of `min` are opened to be broken over lines.
const WIDE: f64 = 30.0;

/// A symbol with its index and mark.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Symbol {
    pub(super) base: String,
    pub(super) index: String,
    /// Primes and stars.
    pub(super) mark: String,
}

/// Words that are no symbol with an index.
const WORDS: [&str; 10] =
    ["utilisation", "hold", "hole", "interaction", "distance", "uplift", "glue", "least", "MOR", "COV"];

impl Symbol {
    /// `Fb'` is F with index b and a prime; `kmod` is k with index mod; words stay words.
    pub(super) fn read(text: &str) -> Symbol {
        let core = text.trim_end_matches(['\'', '*', '′']);
        let mark = text[core.len()..].replace('\'', "′");
        let first = core.split(' ').next().unwrap_or(core);
        let trigonometric = ["sin", "cos", "tan"].iter().any(|f| core.starts_with(f));
        let plain = WORDS.contains(&first) || trigonometric || core.contains('\'') || first == "rope";
        let split = core.char_indices().nth(1).map(|(i, _)| i).filter(|_| !plain);
        let (base, index) = split.map_or((core, ""), |i| core.split_at(i));
        Symbol { base: base.into(), index: index.trim_start().into(), mark }
    }
}

impl Formula {
    /// A name: one symbol, or several with `·` or `/` between them as the standard prints them.
    pub(super) fn name(text: &str) -> Formula {
        let product = text.match_indices(' ').find(|(i, _)| text[i + 1..].starts_with(|c: char| c.is_uppercase()));
        let signs = [("·", text.find('·')), ("/", text.find('/')), ("·", product.map(|(i, _)| i))];
        match signs.into_iter().find_map(|(sign, at)| at.map(|i| (sign, i))) {
            Some((sign, i)) => {
                let rest = text[i..].chars().skip(1).collect::<String>();
                let parts = [Formula::name(text[..i].trim()), Formula::Operator(sign), Formula::name(rest.trim())];
                Formula::Row(parts.into())
            }
            None => Formula::Symbol(Symbol::read(text)),
        }
    }

    /// Roughly how wide it is, in letters.
    fn width(&self) -> f64 {
        let sum = |parts: &[Formula]| parts.iter().map(Formula::width).sum::<f64>();
        match self {
            Formula::Symbol(s) => s.base.chars().count() as f64 + 0.6 * s.index.chars().count() as f64,
            Formula::Value(t) | Formula::Mark(t) => t.chars().count() as f64,
            Formula::Operator(_) => 2.0,
            Formula::Row(parts) => sum(parts),
            Formula::Fraction(a, b) => a.width().max(b.width()) + 0.5,
            Formula::Power(a, _) => a.width() + 0.6,
            Formula::Root(a) | Formula::Bracketed(a) => a.width() + 1.2,
            Formula::Of(name, parts) => (name.len() + 2 * parts.len()) as f64 + sum(parts),
        }
    }

    /// The formula in pieces between which a line may be broken: before a sign, after a comma.
    pub(super) fn pieces(&self) -> Vec<Formula> {
        let mut parts = Vec::new();
        self.opened(&mut parts);
        let mut out: Vec<Vec<Formula>> = vec![Vec::new()];
        let comma = |f: Option<&Formula>| matches!(f, Some(Formula::Mark(m)) if m == ",");
        for part in parts {
            let last = out.len() - 1;
            let breaks = matches!(part, Formula::Operator(_)) || comma(out[last].last());
            if breaks && !out[last].is_empty() {
                out.push(vec![part]);
            } else {
                out[last].push(part);
            }
        }
        out.into_iter().map(Formula::Row).collect()
    }

    /// Terms, factors and signs one after the other, wide brackets opened.
    fn opened(&self, out: &mut Vec<Formula>) {
        let mark = |t: &str| Formula::Mark(t.to_owned());
        match self {
            Formula::Row(parts) => parts.iter().for_each(|p| p.opened(out)),
            Formula::Of(name, parts) if self.width() > WIDE => {
                out.push(mark(&format!("{name}(")));
                for (i, p) in parts.iter().enumerate() {
                    if i > 0 {
                        out.push(mark(","));
                    }
                    p.opened(out);
                }
                out.push(mark(")"));
            }
            Formula::Bracketed(inner) if self.width() > WIDE => {
                out.push(mark("("));
                inner.opened(out);
                out.push(mark(")"));
            }
            _ => out.push(self.clone()),
        }
    }

    /// The formula of an expression, in symbols.
    pub(super) fn of(e: &Expression, units: UnitSystem) -> Formula {
        Formula::bound(e, units, 0)
    }

    /// In brackets if it binds less than is asked.
    fn bound(e: &Expression, units: UnitSystem, at_least: u8) -> Formula {
        let part = |e: &Expression, at_least| Formula::bound(e, units, at_least);
        let row = |a, sign, b| Formula::Row(vec![a, Formula::Operator(sign), b]);
        let all = |name, items: Vec<&Expression>| Formula::Of(name, items.iter().map(|e| part(e, 0)).collect());
        let (formula, binding) = match e.shape(units) {
            Shape::Leaf(text) => (leaf(text), 4),
            Shape::Sum(a, b) => (row(part(a, 1), "+", part(b, 1)), 1),
            Shape::Difference(a, b) => (row(part(a, 1), "−", part(b, 2)), 1),
            Shape::Product(a, b) => (row(part(a, 2), "·", part(b, 2)), 2),
            // A bar holds its two sides together and apart from what stands around.
            Shape::Quotient(a, b) => (Formula::Fraction(Box::new(part(a, 0)), Box::new(part(b, 0))), 3),
            Shape::Power(a, exponent) => (Formula::Power(Box::new(part(a, 4)), exponent.to_string()), 3),
            Shape::Root(a) => (Formula::Root(Box::new(part(a, 0))), 4),
            Shape::Smallest(items) => (all("min", items), 4),
            Shape::Largest(items) => (all("max", items), 4),
        };
        if binding < at_least { Formula::Bracketed(Box::new(formula)) } else { formula }
    }
}

fn leaf(text: String) -> Formula {
    let number = text.starts_with(|c: char| c.is_ascii_digit() || c == '-');
    if number { Formula::Value(text) } else { Formula::name(&text) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::derivation::{given, plain};
    use crate::quantity::number;

    #[test]
    fn symbols_are_taken_apart_as_the_standards_print_them() {
        for (text, base, index, mark) in [
            ("Fb'", "F", "b", "′"),
            ("kmod", "k", "mod", ""),
            ("σm,d", "σ", "m,d", ""),
            ("d", "d", "", ""),
            ("Δ allowed", "Δ", "allowed", ""),
            ("fc⊥", "f", "c⊥", ""),
            ("hold", "hold", "", ""),
            ("MOR 5 %", "MOR 5 %", "", ""),
            ("cosα", "cosα", "", ""),
        ] {
            let want = Symbol { base: base.into(), index: index.into(), mark: mark.into() };
            assert_eq!(Symbol::read(text), want, "{text}");
        }
    }

    #[test]
    fn names_of_several_symbols_keep_their_sign() {
        let symbol = |t: &str| Formula::Symbol(Symbol::read(t));
        for (text, a, sign, b) in
            [("FbE/Fb*", "FbE", "/", "Fb*"), ("kcrit·fm,d", "kcrit", "·", "fm,d"), ("n Z'", "n", "·", "Z'")]
        {
            assert_eq!(
                Formula::name(text),
                Formula::Row(vec![symbol(a), Formula::Operator(sign), symbol(b)]),
                "{text}"
            );
        }
        assert_eq!(Formula::name("V at the screws"), symbol("V at the screws"));
    }

    #[test]
    fn a_wide_formula_comes_in_pieces() {
        let long = |n: usize| given(format!("x{}", "i".repeat(n)), number(1.0));
        let e = long(30).min(long(20) * (long(30) + long(20))).min(long(9));
        let pieces = Formula::of(e.expression(), UnitSystem::Us).pieces();
        assert!(pieces.len() >= 4, "{pieces:?}");
        assert!(pieces.iter().all(|p| p.width() < 2.0 * WIDE), "{pieces:?}");
        let short = given("a", number(1.0)).min(given("b", number(2.0)));
        assert_eq!(Formula::of(short.expression(), UnitSystem::Us).pieces().len(), 1);
    }

    #[test]
    fn a_bar_takes_the_place_of_brackets() {
        let (a, b, c) = (given("a", number(2.0)), given("b", number(3.0)), given("c", number(5.0)));
        let e = (a.clone() + b.clone()) / (c.clone() - a.clone()) * (b + c) / plain(2.0);
        let Formula::Fraction(top, bottom) = Formula::of(e.expression(), UnitSystem::Us) else { panic!("a quotient") };
        assert_eq!(*bottom, Formula::Value("2".into()));
        let Formula::Row(factors) = *top else { panic!("a product") };
        assert!(matches!(&factors[0], Formula::Fraction(..)));
        assert!(matches!(&factors[2], Formula::Bracketed(_)), "a sum as a factor");
    }
}
