//! Real roots of a polynomial of low degree on an interval, to machine precision.

/// Highest degree asked for: the slope of a beam under a linearly varying load.
const DEGREE: usize = 4;

/// The roots found, in ascending order.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Roots {
    at: [f64; DEGREE],
    count: usize,
}

impl Roots {
    pub(super) fn as_slice(&self) -> &[f64] {
        &self.at[..self.count]
    }

    fn push(&mut self, x: f64) {
        if self.count < DEGREE {
            self.at[self.count] = x;
            self.count += 1;
        }
    }
}

fn value(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Roots of Σ cₖ xᵏ strictly inside `(0, length)`.
///
/// The roots of the derivative cut the interval into stretches on which the polynomial is
/// monotone, so each stretch holds at most one root and it is bracketed from the start.
pub(super) fn roots(coefficients: &[f64], length: f64) -> Roots {
    let mut found = Roots::default();
    let degree = coefficients.iter().rposition(|c| *c != 0.0).unwrap_or(0).min(DEGREE);
    if degree == 0 {
        return found;
    }
    let polynomial = &coefficients[..=degree];
    if degree == 1 {
        let x = -polynomial[0] / polynomial[1];
        if x > 0.0 && x < length {
            found.push(x);
        }
        return found;
    }
    let mut derivative = [0.0; DEGREE];
    for k in 1..=degree {
        derivative[k - 1] = k as f64 * polynomial[k];
    }
    let derivative = &derivative[..degree];
    let turns = roots(derivative, length);
    let mut low = (0.0, polynomial[0]);
    for &x in turns.as_slice().iter().chain(&[length]) {
        let high = (x, value(polynomial, x));
        if low.1 * high.1 < 0.0 {
            found.push(bracketed(polynomial, derivative, low, high));
        } else if high.1 == 0.0 && x < length {
            found.push(x);
        }
        low = high;
    }
    found
}

/// Newton's iteration kept inside a shrinking bracket; it halves the bracket when it would leave.
fn bracketed(polynomial: &[f64], derivative: &[f64], low: (f64, f64), high: (f64, f64)) -> f64 {
    let ((mut a, fa), (mut b, fb)) = (low, high);
    let mut x = a + (b - a) * (fa / (fa - fb));
    // Halving alone closes any bracket of doubles in fewer steps than this.
    for _ in 0..128 {
        let f = value(polynomial, x);
        if f == 0.0 {
            return x;
        }
        if (f < 0.0) == (fa < 0.0) {
            a = x;
        } else {
            b = x;
        }
        let newton = x - f / value(derivative, x);
        let next = if newton > a && newton < b { newton } else { 0.5 * (a + b) };
        if (next - x).abs() <= 2.0 * f64::EPSILON * x.abs() {
            return next;
        }
        x = next;
    }
    x
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_of_a_factored_quartic_are_its_factors() {
        // (x − 0.1)(x − 0.5)(x − 0.75)(x − 2) expanded by hand; the last lies outside.
        let c = [0.075, -1.0375, 3.2, -3.35, 1.0];
        let found = roots(&c, 1.0);
        assert_eq!(found.as_slice().len(), 3);
        for (x, exact) in found.as_slice().iter().zip([0.1, 0.5, 0.75]) {
            assert!((x - exact).abs() < 1e-14, "{x}");
        }
    }

    #[test]
    fn a_double_root_and_a_constant_do_not_confuse_it() {
        assert_eq!(roots(&[0.25, -1.0, 1.0], 1.0).as_slice(), &[0.5]);
        assert!(roots(&[3.0, 0.0, 0.0], 1.0).as_slice().is_empty());
        assert!(roots(&[f64::NAN, 1.0], 1.0).as_slice().is_empty());
    }
}
