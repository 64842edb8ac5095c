//! Reading what a builder writes: `5 ft 3-1/2 in`, `38 mm`, `250 lb`, `30 psf`, `1:12`.
//!
//! Grammar: a quantity is one or more terms, each a number and a unit smaller than the one before; a number is whole, decimal,
//! a fraction, or whole-and-fraction joined by a hyphen or a space (`1-1/2`, `1 1/2`, `1½`).

use super::unit::*;
use super::{AreaLoad, BendingMoment, Force, Length, Mass, MassDensity, Stress};
use std::fmt;
use winnow::ascii::{digit1, space0};
use winnow::combinator::{alt, opt, preceded, repeat};
use winnow::prelude::*;
use winnow::token::{one_of, take_while};

/// Why a text is not the quantity that was wanted.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadError {
    /// A number with nothing after it.
    MissingUnit {
        /// Units that would do.
        accepted: &'static str,
    },
    /// A unit that is not one of this quantity's.
    UnknownUnit {
        /// The unit as typed.
        unit: String,
        /// Units that would do.
        accepted: &'static str,
    },
    /// No number where one must stand.
    NotANumber {
        /// An example of what would be right.
        example: &'static str,
    },
    /// A fraction over zero.
    ZeroDenominator,
    /// A comma in a number.
    Comma,
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            ReadError::MissingUnit { .. } => write!(f, "this number has no unit"),
            ReadError::UnknownUnit { unit, .. } => write!(f, "`{unit}` is not a unit for this"),
            ReadError::NotANumber { .. } => write!(f, "this cannot be read as a number with a unit"),
            ReadError::ZeroDenominator => write!(f, "this fraction divides by zero"),
            ReadError::Comma => write!(f, "a number cannot hold a comma"),
        }
    }
}

impl ReadError {
    /// What would be right.
    pub fn help(&self) -> String {
        match self {
            ReadError::MissingUnit { accepted } | ReadError::UnknownUnit { accepted, .. } => {
                format!("write a unit after the number: {accepted}")
            }
            ReadError::NotANumber { example } => format!("write it like {example}"),
            ReadError::ZeroDenominator => "write a fraction such as 1/2".into(),
            ReadError::Comma => "write decimals after a point, as in \"152.4 cm\", and thousands unbroken".into(),
        }
    }
}

struct Kind {
    accepted: &'static str,
    example: &'static str,
    /// Many terms may follow each other, as feet and inches do.
    compound: bool,
    factor: fn(&str) -> Option<f64>,
}

const LENGTH: Kind = Kind {
    accepted: "in, ft, mm, cm or m",
    example: "\"1-1/2 in\", \"5 ft 3-1/2 in\" or \"38 mm\"",
    compound: true,
    factor: |u| {
        Some(match u {
            "in" | "inch" | "inches" | "\"" | "″" => METRE_PER_INCH,
            "ft" | "foot" | "feet" | "'" | "′" => 12.0 * METRE_PER_INCH,
            "mm" => 1e-3,
            "cm" => 1e-2,
            "m" => 1.0,
            _ => return None,
        })
    },
};

const MASS: Kind = Kind {
    accepted: "lb or kg",
    example: "\"180 lb\" or \"82 kg\"",
    compound: true,
    factor: |u| {
        Some(match u {
            "lb" | "lbs" | "pound" | "pounds" => KILOGRAM_PER_POUND,
            "oz" => KILOGRAM_PER_POUND / 16.0,
            "st" | "stone" => 14.0 * KILOGRAM_PER_POUND,
            "kg" => 1.0,
            "g" => 1e-3,
            _ => return None,
        })
    },
};

const PRESSURE: Kind = Kind {
    accepted: "psf, psi, kN/m2, kPa, N/mm2, MPa or GPa",
    example: "\"30 psf\" or \"1.5 kN/m2\"",
    compound: false,
    factor: |u| {
        Some(match u {
            "psf" | "lb/ft2" | "lb/ft²" => PASCAL_PER_PSI / 144.0,
            "psi" | "lb/in2" | "lb/in²" => PASCAL_PER_PSI,
            "ksi" => PASCAL_PER_PSI * 1e3,
            "Pa" | "N/m2" | "N/m²" => 1.0,
            "kPa" | "kN/m2" | "kN/m²" => 1e3,
            "MPa" | "N/mm2" | "N/mm²" => 1e6,
            "GPa" | "kN/mm2" | "kN/mm²" => 1e9,
            _ => return None,
        })
    },
};

const MODULUS: Kind = Kind {
    accepted: "psi, ksi, N/mm2, MPa or GPa",
    example: "\"1.45e6 psi\" or \"10 GPa\"",
    compound: false,
    factor: |u| match u {
        "psf" | "lb/ft2" | "lb/ft²" | "Pa" | "N/m2" | "N/m²" | "kPa" | "kN/m2" | "kN/m²" => None,
        _ => (PRESSURE.factor)(u),
    },
};

const FORCE: Kind = Kind {
    accepted: "N, kN or lbf",
    example: "\"2.5 kN\" or \"300 lbf\"",
    compound: false,
    factor: |u| {
        Some(match u {
            "N" => 1.0,
            "kN" => 1e3,
            "lbf" => NEWTON_PER_POUND_FORCE,
            _ => return None,
        })
    },
};

const MOMENT: Kind = Kind {
    accepted: "Nm, Nmm or kNm",
    example: "\"5.9 Nm\" or \"5900 Nmm\"",
    compound: false,
    factor: |u| {
        Some(match u {
            "Nm" => 1.0,
            "Nmm" => 1e-3,
            "kNm" => 1e3,
            _ => return None,
        })
    },
};

const DENSITY: Kind = Kind {
    accepted: "kg/m3 or lb/ft3",
    example: "\"350 kg/m3\"",
    compound: false,
    factor: |u| {
        Some(match u {
            "kg/m3" | "kg/m³" => 1.0,
            "lb/ft3" | "lb/ft³" => KILOGRAM_PER_POUND / (12.0 * METRE_PER_INCH).powi(3),
            _ => return None,
        })
    },
};

/// A length such as `5 ft 3-1/2 in`.
///
/// # Errors
///
/// [`ReadError`] when there is no number, no unit, or a unit of another kind.
pub fn length(text: &str) -> Result<Length, ReadError> {
    read(text, &LENGTH).map(metre)
}

/// A mass such as `250 lb`; builders call it weight.
///
/// # Errors
///
/// As [`length`].
pub fn mass(text: &str) -> Result<Mass, ReadError> {
    read(text, &MASS).map(kilogram)
}

/// A pressure or a modulus such as `30 psf` or `9.5 GPa`.
///
/// # Errors
///
/// As [`length`].
pub fn pressure(text: &str) -> Result<AreaLoad, ReadError> {
    read(text, &PRESSURE).map(pascal)
}

/// A modulus of elasticity such as `1.45e6 psi` or `10 GPa`; the only quantity that is written with powers of ten.
///
/// # Errors
///
/// As [`length`].
pub fn modulus(text: &str) -> Result<Stress, ReadError> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || ".eE+-".contains(c))).unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    match number.parse::<f64>() {
        Ok(n) if n.is_finite() && number.contains(['e', 'E']) => {
            read(&format!("1 {unit}"), &MODULUS).map(|u| pascal(n * u))
        }
        _ => read(text, &MODULUS).map(pascal),
    }
}

/// A force such as `2.5 kN` or `300 lbf`.
///
/// # Errors
///
/// As [`length`].
pub fn force(text: &str) -> Result<Force, ReadError> {
    read(text, &FORCE).map(newton)
}

/// A moment such as `5.9 Nm`.
///
/// # Errors
///
/// As [`length`].
pub fn moment(text: &str) -> Result<BendingMoment, ReadError> {
    read(text, &MOMENT).map(newton_metre)
}

/// A density such as `350 kg/m3`.
///
/// # Errors
///
/// As [`length`].
pub fn density(text: &str) -> Result<MassDensity, ReadError> {
    read(text, &DENSITY).map(kilogram_per_cubic_metre)
}

/// A ratio written `1:12` or `1 in 12` (a slope) or `L/360` (a limit): the number after the one.
///
/// # Errors
///
/// [`ReadError::NotANumber`] in any other form.
pub fn ratio_to(text: &str) -> Result<f64, ReadError> {
    let bad = ReadError::NotANumber { example: "\"1:12\" for a slope, \"L/240\" for a limit" };
    let t = text.trim();
    let rest = ["1:", "L/", "l/", "1 in "].iter().find_map(|p| t.strip_prefix(p)).ok_or(bad.clone())?;
    match number.parse(rest.trim()) {
        Ok(v) if v.is_finite() && v > 0.0 => Ok(v),
        _ => Err(bad),
    }
}

fn read(text: &str, kind: &Kind) -> Result<f64, ReadError> {
    let bad = ReadError::NotANumber { example: kind.example };
    let text = text.trim();
    let (negative, mut rest) = match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text),
    };
    let mut total = 0.0;
    let mut terms = 0;
    // `5 ft 3 in` is one length; `60 in 61 in` is two.
    let mut last = f64::INFINITY;
    while !rest.is_empty() {
        let v = number.parse_next(&mut rest).map_err(|_| bad.clone())?;
        if v.is_nan() {
            return Err(ReadError::ZeroDenominator);
        }
        if rest.starts_with(',') {
            return Err(ReadError::Comma);
        }
        let u = unit_name.parse_next(&mut rest).map_err(|_| bad.clone())?;
        if u.is_empty() {
            return Err(ReadError::MissingUnit { accepted: kind.accepted });
        }
        let factor =
            (kind.factor)(u).ok_or_else(|| ReadError::UnknownUnit { unit: u.to_owned(), accepted: kind.accepted })?;
        if factor >= last {
            return Err(bad);
        }
        last = factor;
        total += v * factor;
        terms += 1;
        let _: winnow::Result<&str> = space0.parse_next(&mut rest);
        if !kind.compound && !rest.is_empty() {
            return Err(bad);
        }
    }
    if terms == 0 { Err(bad) } else { Ok(if negative { -total } else { total }) }
}

/// A zero denominator is answered with NaN, which [`read`] turns into its own message.
fn number(input: &mut &str) -> winnow::Result<f64> {
    alt((mixed, fraction, decimal_with_vulgar)).parse_next(input)
}

fn mixed(input: &mut &str) -> winnow::Result<f64> {
    let whole: f64 = digit1.parse_to().parse_next(input)?;
    let joint = (opt('-'), space0);
    Ok(whole + preceded(joint, fraction).parse_next(input)?)
}

fn fraction(input: &mut &str) -> winnow::Result<f64> {
    let top: f64 = digit1.parse_to().parse_next(input)?;
    let bottom: f64 = preceded(one_of(['/', '⁄']), digit1.parse_to()).parse_next(input)?;
    Ok(if bottom == 0.0 { f64::NAN } else { top / bottom })
}

fn decimal_with_vulgar(input: &mut &str) -> winnow::Result<f64> {
    let text = take_while(0.., ('0'..='9', '.')).parse_next(input)?;
    let vulgar = opt(one_of(['½', '¼', '¾', '⅛', '⅜', '⅝', '⅞'])).parse_next(input)?;
    let part = vulgar.map_or(0.0, |c| match c {
        '½' => 0.5,
        '¼' => 0.25,
        '¾' => 0.75,
        '⅛' => 0.125,
        '⅜' => 0.375,
        '⅝' => 0.625,
        _ => 0.875,
    });
    let whole = if text.is_empty() && vulgar.is_some() { Ok(0.0) } else { text.parse::<f64>() };
    match whole {
        Ok(w) if w.is_finite() => Ok(w + part),
        _ => winnow::combinator::fail.parse_next(input),
    }
}

fn unit_name<'a>(input: &mut &'a str) -> winnow::Result<&'a str> {
    let _: &str = space0.parse_next(input)?;
    let marks = take_while(1..=1, ['"', '\'', '″', '′']);
    let letters = (
        take_while(1.., |c: char| c.is_alphabetic()),
        repeat::<_, _, (), _, _>(0.., one_of(|c: char| c.is_alphabetic() || "/23²³".contains(c))),
    )
        .take();
    alt((marks, letters, "")).parse_next(input)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_as_builders_write_them() {
        for (text, inches) in [
            ("1-1/2 in", 1.5),
            ("1 1/2 in", 1.5),
            ("1½ in", 1.5),
            ("5 ft 3-1/2 in", 63.5),
            ("5'3-1/2\"", 63.5),
            ("3/4 in", 0.75),
            ("3/4\"", 0.75),
            ("2.5in", 2.5),
            (".75 in", 0.75),
            ("6 ft", 72.0),
            ("25.4 mm", 1.0),
            ("2.54 cm", 1.0),
            ("0.0254 m", 1.0),
            ("-2 in", -2.0),
        ] {
            let got = length(text).unwrap_or_else(|e| panic!("{text}: {e}"));
            assert!((got.value / METRE_PER_INCH - inches).abs() < 1e-12, "{text}: {}", got.value / METRE_PER_INCH);
        }
    }

    #[test]
    fn other_kinds() {
        assert_eq!(mass("250 lb").unwrap(), pound(250.0));
        assert_eq!(mass("115 kg").unwrap(), kilogram(115.0));
        assert!((pressure("30 psf").unwrap().value - 1436.408).abs() < 1e-3);
        assert_eq!(pressure("1.5 kN/m2").unwrap(), pascal(1500.0));
        assert_eq!(force("300 lbf").unwrap(), pound_force(300.0));
        for text in ["1.45e6 psi", "1.45E+6psi", "1450000 psi", "1450 ksi"] {
            assert!(((modulus(text).unwrap() / psi(1.45e6)).value - 1.0).abs() < 1e-12, "{text}");
        }
        assert_eq!(modulus("10 GPa").unwrap(), pascal(10e9));
        assert!(matches!(modulus("1.45e6"), Err(ReadError::MissingUnit { .. })));
        assert!(matches!(modulus("1.45e6 psf"), Err(ReadError::UnknownUnit { .. })));
        assert!(matches!(modulus("e6 psi"), Err(ReadError::NotANumber { .. })));
        assert!(modulus("1e999 psi").is_err() && length("1e3 mm").is_err());
        assert_eq!(force("2 kN").unwrap(), newton(2000.0));
        assert_eq!(moment("5900 Nmm").unwrap(), newton_metre(5.9));
        assert_eq!(density("350 kg/m3").unwrap(), kilogram_per_cubic_metre(350.0));
        // 1 lb/ft3 = 16.018 46 kg/m3 (NIST SP 811, appendix B.8).
        assert!((density("1 lb/ft3").unwrap().value - 16.01846).abs() < 5e-6);
        assert_eq!(ratio_to("1:12"), Ok(12.0));
        assert_eq!(ratio_to("L/240"), Ok(240.0));
        assert_eq!(ratio_to("1 in 12"), Ok(12.0));
        assert!(ratio_to("1:0").is_err() && ratio_to("L/0").is_err() && ratio_to("12").is_err());
    }

    /// NIST Special Publication 811 (2008), appendix B.8, to its digits, from memory; what is exact there is exact here.
    #[test]
    fn every_unit_is_the_one_of_its_name() {
        let near = |got: f64, want: f64, half: f64| assert!((got - want).abs() <= half, "{got} {want}");
        for (names, metres) in [
            (&["in", "inch", "inches", "\"", "″"][..], 0.0254),
            (&["ft", "foot", "feet", "'", "′"], 0.3048),
            (&["mm"], 0.001),
            (&["cm"], 0.01),
            (&["m"], 1.0),
        ] {
            names.iter().for_each(|n| near(length(&format!("1 {n}")).unwrap().value, metres, 1e-16));
        }
        for (names, kilograms) in [
            (&["lb", "lbs", "pound", "pounds"][..], 0.453_592_37),
            (&["oz"], 0.028_349_523_125),
            (&["st", "stone"], 6.350_293_18),
            (&["kg"], 1.0),
            (&["g"], 0.001),
        ] {
            names.iter().for_each(|n| near(mass(&format!("1 {n}")).unwrap().value, kilograms, 1e-15));
        }
        for (names, pascals, half) in [
            (&["psf", "lb/ft2", "lb/ft²"][..], 47.880_26, 5e-6),
            (&["psi", "lb/in2", "lb/in²"], 6_894.757, 5e-4),
            (&["ksi"], 6_894_757.0, 0.5),
            (&["Pa", "N/m2", "N/m²"], 1.0, 0.0),
            (&["kPa", "kN/m2", "kN/m²"], 1e3, 0.0),
            (&["MPa", "N/mm2", "N/mm²"], 1e6, 0.0),
            (&["GPa", "kN/mm2", "kN/mm²"], 1e9, 0.0),
        ] {
            names.iter().for_each(|n| near(pressure(&format!("1 {n}")).unwrap().value, pascals, half));
        }
        assert_eq!(mass("12 st 4 lb").unwrap(), pound(172.0));
    }

    #[test]
    fn mistakes_are_named() {
        assert!(matches!(length("38"), Err(ReadError::MissingUnit { .. })));
        assert!(matches!(length("12 feets"), Err(ReadError::UnknownUnit { unit, .. }) if unit == "feets"));
        assert!(matches!(length("12 lb"), Err(ReadError::UnknownUnit { .. })));
        assert!(matches!(length("about a foot"), Err(ReadError::NotANumber { .. })));
        assert!(matches!(length(""), Err(ReadError::NotANumber { .. })));
        assert!(matches!(length("152,4 cm"), Err(ReadError::Comma)));
        assert!(matches!(length("1/0 in"), Err(ReadError::ZeroDenominator)));
        assert!(matches!(length("inf in"), Err(ReadError::NotANumber { .. })));
        assert!(matches!(length("NaN mm"), Err(ReadError::NotANumber { .. })));
        assert!(matches!(pressure("1 psf 2 psf"), Err(ReadError::NotANumber { .. })));
        assert!(matches!(length("60 in 61 in"), Err(ReadError::NotANumber { .. })));
        assert!(matches!(length("3 in 5 ft"), Err(ReadError::NotANumber { .. })));
        assert!(matches!(mass("12 lb 1 stone"), Err(ReadError::NotANumber { .. })));
    }
}
