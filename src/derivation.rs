//! Values that remember how they were computed.
//!
//! A [`Worked`] quantity carries its expression. Arithmetic on `Worked` values computes the number
//! and builds the expression in the same step, so the formula a report prints *is* the formula that
//! was evaluated; there is no second copy to drift. [`Worked::step`] closes an expression under a
//! symbol with its citation, and a later expression that uses the symbol refers back to that step.

use std::borrow::Cow;
use std::ops::{Add, Div, Mul, Sub};
use std::sync::Arc;

use crate::quantity::{Measure, Measured, Ratio, UnitSystem, number};
use crate::source::Citation;

/// One line of a calculation: symbol = expression = value, and where the expression comes from.
#[derive(Clone, Debug)]
pub struct Step {
    /// The standard's symbol for the result.
    pub symbol: Cow<'static, str>,
    /// The result.
    pub value: Measure,
    /// How it was computed.
    pub expression: Expression,
    /// The clause that gives the expression.
    pub citation: Citation,
}

/// An expression over symbols, numbers and constants.
#[derive(Clone, Debug)]
pub struct Expression(Arc<Node>);

#[derive(Debug)]
enum Node {
    /// A symbol given from outside, such as a table value or a dimension.
    Given(Cow<'static, str>, Measure),
    /// A symbol worked out by an earlier step.
    Worked(Arc<Step>),
    /// A plain number or a dimensioned constant of the standard.
    Constant(Measure),
    Sum(Expression, Expression),
    Difference(Expression, Expression),
    Product(Expression, Expression),
    Quotient(Expression, Expression),
    Power(Expression, f64),
    Root(Expression),
    Smaller(Expression, Expression),
    Larger(Expression, Expression),
}

use Node as N;

/// The outermost operation of an expression, for setting it as a formula.
#[derive(Debug)]
pub enum Shape<'e> {
    /// A symbol, or a constant in the reader's units.
    Leaf(String),
    /// Two terms added.
    Sum(&'e Expression, &'e Expression),
    /// The second taken from the first.
    Difference(&'e Expression, &'e Expression),
    /// Two factors.
    Product(&'e Expression, &'e Expression),
    /// The first over the second.
    Quotient(&'e Expression, &'e Expression),
    /// Raised to a constant.
    Power(&'e Expression, f64),
    /// The square root.
    Root(&'e Expression),
    /// The smallest of several.
    Smallest(Vec<&'e Expression>),
    /// The largest of several.
    Largest(Vec<&'e Expression>),
}

/// A quantity together with the expression that gave it.
#[derive(Clone, Debug)]
pub struct Worked<Q> {
    /// The quantity.
    pub value: Q,
    expression: Expression,
}

/// A symbol with a value from outside the calculation.
pub fn given<Q: Measured>(symbol: impl Into<Cow<'static, str>>, value: Q) -> Worked<Q> {
    Worked { value, expression: node(N::Given(symbol.into(), value.measure())) }
}

/// A constant printed as it stands, in the reader's units.
pub fn constant<Q: Measured>(value: Q) -> Worked<Q> {
    Worked { value, expression: node(N::Constant(value.measure())) }
}

/// A pure number.
pub fn plain(value: f64) -> Worked<Ratio> {
    constant(number(value))
}

fn node(n: Node) -> Expression {
    Expression(Arc::new(n))
}

impl<Q: Measured> Worked<Q> {
    /// Gives the expression a symbol and a source. What is built on the result prints the symbol.
    pub fn step(self, symbol: impl Into<Cow<'static, str>>, citation: Citation) -> Worked<Q> {
        let step = Step { symbol: symbol.into(), value: self.value.measure(), expression: self.expression, citation };
        Worked { value: self.value, expression: node(N::Worked(Arc::new(step))) }
    }

    /// The step that gave this value, if [`Worked::step`] closed it.
    pub fn as_step(&self) -> Option<&Step> {
        match &*self.expression.0 {
            N::Worked(step) => Some(step),
            _ => None,
        }
    }

    /// The smaller of two values.
    pub fn min(self, other: Worked<Q>) -> Worked<Q> {
        let value = if other.value.si() < self.value.si() { other.value } else { self.value };
        Worked { value, expression: node(N::Smaller(self.expression, other.expression)) }
    }

    /// The larger of two values.
    pub fn max(self, other: Worked<Q>) -> Worked<Q> {
        let value = if other.value.si() > self.value.si() { other.value } else { self.value };
        Worked { value, expression: node(N::Larger(self.expression, other.expression)) }
    }

    /// Every step behind this value, in the order they must be worked; a step that was worked twice
    /// in the same way is listed once.
    pub fn steps(&self) -> Vec<Arc<Step>> {
        Expression::steps([&self.expression])
    }

    /// The expression, for printing.
    pub fn expression(&self) -> &Expression {
        &self.expression
    }
}

impl Worked<Ratio> {
    /// A power with a constant exponent.
    pub fn power(self, exponent: f64) -> Worked<Ratio> {
        Worked { value: number(self.value.value.powf(exponent)), expression: node(N::Power(self.expression, exponent)) }
    }

    /// The square root.
    pub fn root(self) -> Worked<Ratio> {
        Worked { value: number(self.value.value.sqrt()), expression: node(N::Root(self.expression)) }
    }
}

macro_rules! operation {
    ($trait:ident, $method:ident, $node:ident) => {
        impl<A, B> $trait<Worked<B>> for Worked<A>
        where
            A: $trait<B>,
        {
            type Output = Worked<A::Output>;
            fn $method(self, other: Worked<B>) -> Self::Output {
                Worked {
                    value: self.value.$method(other.value),
                    expression: node(N::$node(self.expression, other.expression)),
                }
            }
        }
    };
}
operation!(Add, add, Sum);
operation!(Sub, sub, Difference);
operation!(Mul, mul, Product);
operation!(Div, div, Quotient);

impl Expression {
    /// Every step behind some expressions, in the order they must be worked; a step that was worked
    /// twice in the same way is listed once.
    pub fn steps<'e>(all: impl IntoIterator<Item = &'e Expression>) -> Vec<Arc<Step>> {
        let mut out = Vec::new();
        all.into_iter().for_each(|e| e.collect(&mut out));
        out
    }

    /// The expression in symbols: `Fb · CD · CM`, constants of the standard in the reader's units.
    pub fn symbols(&self, units: UnitSystem) -> String {
        let mut out = String::new();
        self.write(&mut out, &|n| match n {
            N::Given(s, _) => s.to_string(),
            N::Worked(step) => step.symbol.to_string(),
            N::Constant(m) => m.show(units),
            _ => String::new(),
        });
        out
    }

    /// The expression with numbers in place of symbols, in the reader's units.
    pub fn substituted(&self, units: UnitSystem) -> String {
        let mut out = String::new();
        self.write(&mut out, &|n| match n {
            N::Given(_, m) | N::Constant(m) => m.show(units),
            N::Worked(step) => step.value.show(units),
            _ => String::new(),
        });
        out
    }

    /// The first force or moment from outside the calculation, in the order of its steps.
    pub fn load(&self) -> Option<Measure> {
        let mut found = None;
        let mut look = |e: &Expression| {
            e.visit(&mut |n| {
                if let N::Given(_, m) = n
                    && matches!((m.dimension.length, m.dimension.mass, m.dimension.time), (1 | 2, 1, -2))
                {
                    found = found.or(Some(*m));
                }
            });
        };
        Expression::steps([self]).iter().for_each(|s| look(&s.expression));
        look(self);
        found
    }

    /// The outermost operation.
    pub fn shape(&self, units: UnitSystem) -> Shape<'_> {
        match &*self.0 {
            N::Given(s, _) => Shape::Leaf(s.to_string()),
            N::Worked(step) => Shape::Leaf(step.symbol.to_string()),
            N::Constant(m) => Shape::Leaf(m.show(units)),
            N::Sum(a, b) => Shape::Sum(a, b),
            N::Difference(a, b) => Shape::Difference(a, b),
            N::Product(a, b) => Shape::Product(a, b),
            N::Quotient(a, b) => Shape::Quotient(a, b),
            N::Power(a, e) => Shape::Power(a, *e),
            N::Root(a) => Shape::Root(a),
            N::Smaller(..) => Shape::Smallest(self.all_of(&smaller)),
            N::Larger(..) => Shape::Largest(self.all_of(&larger)),
        }
    }

    fn visit(&self, f: &mut dyn FnMut(&Node)) {
        f(&self.0);
        match &*self.0 {
            N::Given(..) | N::Constant(_) | N::Worked(_) => {}
            N::Sum(a, b)
            | N::Difference(a, b)
            | N::Product(a, b)
            | N::Quotient(a, b)
            | N::Smaller(a, b)
            | N::Larger(a, b) => {
                a.visit(f);
                b.visit(f);
            }
            N::Power(a, _) | N::Root(a) => a.visit(f),
        }
    }

    fn collect(&self, out: &mut Vec<Arc<Step>>) {
        self.visit(&mut |n| {
            if let N::Worked(step) = n
                && !out.iter().any(|s| step.says_the_same_as(s))
            {
                step.expression.collect(out);
                out.push(Arc::clone(step));
            }
        });
    }

    fn binding(&self) -> u8 {
        match &*self.0 {
            N::Sum(..) | N::Difference(..) => 1,
            N::Product(..) | N::Quotient(..) => 2,
            N::Power(..) => 3,
            // A symbol such as `FbE/Fb*` reads as a quotient wherever it stands.
            N::Given(s, _) if s.contains(['/', ' ']) => 2,
            N::Worked(step) if step.symbol.contains(['/', ' ']) => 2,
            _ => 4,
        }
    }

    fn write(&self, out: &mut String, leaf: &dyn Fn(&Node) -> String) {
        let pair = |out: &mut String, a: &Expression, b: &Expression, sign: &str, own: u8, right: u8| {
            a.bracketed(out, leaf, own);
            out.push_str(sign);
            b.bracketed(out, leaf, right);
        };
        let call = |out: &mut String, name: &str, args: &[&Expression]| {
            out.push_str(name);
            out.push('(');
            for (i, a) in args.iter().enumerate() {
                if i > 0 {
                    out.push_str(", ");
                }
                a.write(out, leaf);
            }
            out.push(')');
        };
        match &*self.0 {
            N::Sum(a, b) => pair(out, a, b, " + ", 1, 1),
            N::Difference(a, b) => pair(out, a, b, " - ", 1, 2),
            N::Product(a, b) => pair(out, a, b, " · ", 2, 2),
            N::Quotient(a, b) => pair(out, a, b, " / ", 2, 3),
            N::Power(a, e) => {
                a.bracketed(out, leaf, 4);
                out.push_str(&format!("^{e}"));
            }
            N::Root(a) => call(out, "sqrt", &[a]),
            N::Smaller(..) => call(out, "min", &self.all_of(&smaller)),
            N::Larger(..) => call(out, "max", &self.all_of(&larger)),
            n => out.push_str(&leaf(n)),
        }
    }

    /// The operands of nested uses of one associative function, left to right.
    fn all_of<'e>(
        &'e self,
        pair: &dyn Fn(&'e Node) -> Option<(&'e Expression, &'e Expression)>,
    ) -> Vec<&'e Expression> {
        match pair(&self.0) {
            Some((a, b)) => [a.all_of(pair), b.all_of(pair)].concat(),
            None => vec![self],
        }
    }

    fn bracketed(&self, out: &mut String, leaf: &dyn Fn(&Node) -> String, at_least: u8) {
        if self.binding() < at_least {
            out.push('(');
            self.write(out, leaf);
            out.push(')');
        } else {
            self.write(out, leaf);
        }
    }
}

fn smaller(n: &Node) -> Option<(&Expression, &Expression)> {
    match n {
        N::Smaller(a, b) => Some((a, b)),
        _ => None,
    }
}

fn larger(n: &Node) -> Option<(&Expression, &Expression)> {
    match n {
        N::Larger(a, b) => Some((a, b)),
        _ => None,
    }
}

impl Step {
    /// Whether two steps print alike.
    fn says_the_same_as(&self, other: &Step) -> bool {
        self.symbol == other.symbol
            && self.value == other.value
            && self.citation == other.citation
            && (Arc::ptr_eq(&self.expression.0, &other.expression.0)
                || self.expression.symbols(UnitSystem::Us) == other.expression.symbols(UnitSystem::Us))
    }

    /// The step as one line of a calculation.
    pub fn line(&self, units: UnitSystem) -> String {
        let symbols = self.expression.symbols(units);
        let numbers = self.expression.substituted(units);
        let value = self.value.show(units);
        let mut parts = vec![self.symbol.to_string()];
        for part in [symbols, numbers, value] {
            if parts.last() != Some(&part) {
                parts.push(part);
            }
        }
        parts.join(" = ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit::{inch, psi};
    use crate::source::Seen;

    const HERE: Citation = Citation::new("arithmetic", "", Seen::Computed);

    #[test]
    fn an_expression_prints_what_it_evaluates() {
        let fb = given("Fb", psi(875.0));
        let cf = given("CF", number(1.5));
        let adjusted = (fb * cf * plain(1.1)).step("Fb'", HERE);
        assert!((adjusted.value.value / psi(1443.75).value - 1.0).abs() < 1e-15);
        let step = adjusted.as_step().unwrap();
        assert_eq!(step.line(UnitSystem::Us), "Fb' = Fb · CF · 1.1 = 875 psi · 1.5 · 1.1 = 1444 psi");
    }

    #[test]
    fn brackets_appear_where_the_tree_needs_them() {
        let (a, b, c) = (given("a", number(2.0)), given("b", number(3.0)), given("c", number(5.0)));
        let e = (a.clone() + b.clone()) * c.clone() / (a.clone() * b.clone()) - (c.clone() - a.clone());
        assert_eq!(e.expression().symbols(UnitSystem::Us), "(a + b) · c / (a · b) - (c - a)");
        assert_eq!(e.value.value, 25.0 / 6.0 - 3.0);
        let p = ((a + b).power(2.0) * c.clone()).root().min(c);
        assert_eq!(p.expression().symbols(UnitSystem::Us), "min(sqrt((a + b)^2 · c), c)");
    }

    #[test]
    fn later_steps_refer_to_earlier_ones() {
        let b = given("b", inch(3.5));
        let d = given("d", inch(1.5));
        let s = (b * d.clone() * d / plain(6.0)).step("S", HERE);
        let twice = (s.clone() + s).step("2S", HERE);
        let steps = twice.steps();
        assert_eq!(steps.iter().map(|s| s.symbol.as_ref()).collect::<Vec<_>>(), ["S", "2S"]);
    }
}
