//! Numbers with units as people print them, and when a value is the printed one.

/// A number as printed, with its unit.
#[derive(Clone, Debug)]
pub(crate) struct Printed {
    digits: String,
    unit: String,
}

/// How a source brings a number to its printed digits.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Rounding {
    /// To the nearest.
    #[default]
    Nearest,
    /// By leaving the rest off.
    Cut,
    /// Not at all: the number is what the standard itself sets, such as a factor in a table.
    Exact,
}

/// SI units in one of these. Kept apart from the program's own table of units.
fn unit(name: &str) -> Option<f64> {
    let (inch, pound) = (0.0254, 4.448_221_615_260_5);
    Some(match name {
        "" | "deg" => 1.0,
        "%" => 0.01,
        "in" => inch,
        "ft" => 12.0 * inch,
        "mm" => 1e-3,
        "m" => 1.0,
        "in2" => inch * inch,
        "in3" => inch.powi(3),
        "in4" => inch.powi(4),
        "mm2" => 1e-6,
        "mm3" => 1e-9,
        "mm4" => 1e-12,
        "lb" => pound,
        "kip" => 1e3 * pound,
        "N" => 1.0,
        "kN" => 1e3,
        "psf" => pound / (inch * inch) / 144.0,
        "psi" => pound / (inch * inch),
        "ksi" => 1e3 * pound / (inch * inch),
        "Mpsi" => 1e6 * pound / (inch * inch),
        "Pa" => 1.0,
        "kPa" | "kN/m2" => 1e3,
        "N/mm2" | "MPa" => 1e6,
        "GPa" => 1e9,
        "lb/in" => pound / inch,
        "N/mm" => 1e3,
        "kN/m" => 1e3,
        "lb.in" => pound * inch,
        "kip.ft" => 12e3 * pound * inch,
        "N.mm" => 1e-3,
        "kN.m" => 1e3,
        "kg/m3" => 1.0,
        _ => return None,
    })
}

/// Whether a word is a unit.
pub(crate) fn is_unit(word: &str) -> bool {
    word == "ft-in" || unit(word).is_some()
}

impl Printed {
    /// Reads `1173 psi`, `.6621`, `4.32e5 mm3`, and `8-11 ft-in` for 8 ft 11 in.
    pub(crate) fn read(text: &str) -> Result<Printed, String> {
        let (digits, name) = text.trim().split_once(' ').unwrap_or((text.trim(), ""));
        let mut printed = Printed { digits: digits.to_owned(), unit: name.trim().to_owned() };
        if printed.unit == "ft-in" {
            let both = digits.split_once('-').and_then(|(f, i)| Some((f.parse::<u32>().ok()?, i.parse::<u32>().ok()?)));
            let (feet, inches) = both.ok_or_else(|| format!("{text:?} is no feet-inches"))?;
            printed = Printed { digits: (feet * 12 + inches).to_string(), unit: "in".to_owned() };
        }
        printed.digits.parse::<f64>().map_err(|_| format!("{text:?} is no number"))?;
        unit(&printed.unit).ok_or_else(|| format!("{text:?}: no unit {name:?}"))?;
        Ok(printed)
    }

    fn factor(&self) -> f64 {
        unit(&self.unit).unwrap_or(f64::NAN)
    }

    /// The number as printed, without its unit.
    fn number(&self) -> f64 {
        self.digits.parse().unwrap_or(f64::NAN)
    }

    /// One unit of the last printed place.
    fn place(&self) -> f64 {
        let (mantissa, exponent) = self.digits.split_once(['e', 'E']).unwrap_or((&self.digits, "0"));
        let places = mantissa.split_once('.').map_or(0, |(_, after)| after.len());
        10f64.powi(exponent.parse::<i32>().unwrap_or(0) - i32::try_from(places).unwrap_or(0))
    }

    /// Whether an SI value prints as this does.
    pub(crate) fn is(&self, si: f64, rounding: Rounding) -> bool {
        let got = si / self.factor();
        // A tie, such as 931.5 printed as 932, is within half a unit but for the binary fraction.
        let slack = 1e-6 * self.place();
        match rounding {
            Rounding::Nearest => (got - self.number()).abs() <= 0.5 * self.place() + slack,
            Rounding::Exact => (got - self.number()).abs() <= 1e-9 * self.number().abs(),
            Rounding::Cut => got >= self.number() - slack && got < self.number() + self.place(),
        }
    }

    /// An SI value in the unit of the print, with two places more.
    pub(crate) fn beside(&self, si: f64) -> String {
        let digits = usize::try_from((-self.place().log10()).ceil() as i64).unwrap_or(0) + 2;
        format!("{:.digits$}", si / self.factor())
    }
}

/// An input in SI units: `96 in`, `1-1/2 in`, `0.5`.
pub(crate) fn given(text: &str) -> Result<f64, String> {
    let (number, name) = text.trim().split_once(' ').unwrap_or((text.trim(), ""));
    let fraction = |s: &str| match s.split_once('/') {
        Some((a, b)) => Some(a.parse::<f64>().ok()? / b.parse::<f64>().ok()?),
        None => s.parse().ok(),
    };
    let value = match number.split_once('-') {
        Some((whole, part)) if part.contains('/') => whole.parse::<f64>().ok().zip(fraction(part)).map(|(a, b)| a + b),
        _ => fraction(number),
    };
    let value = value.ok_or_else(|| format!("{text:?} is no number"))?;
    Ok(value * unit(name.trim()).ok_or_else(|| format!("{text:?}: no unit {name:?}"))?)
}

#[test]
fn half_a_unit_of_the_last_place() {
    let is = |printed: &str, value: f64| Printed::read(printed).unwrap().is(value, Rounding::Nearest);
    assert!(is("932", 931.5) && is("932", 932.5) && !is("932", 931.49) && !is("932", 932.51));
    assert!(is(".6621", 0.66211) && !is(".6621", 0.66216));
    assert!(is("4.32e5 mm3", 4.324e-4) && !is("4.32e5 mm3", 4.326e-4));
    assert!(is("8-11 ft-in", 107.4 * 0.0254) && !is("8-11 ft-in", 107.6 * 0.0254));
    assert!(is("23570 lb.in", 23569.8 * 4.448_221_615_260_5 * 0.0254));
    let cut = |value| Printed::read("109").unwrap().is(value, Rounding::Cut);
    assert!(cut(109.0) && cut(109.99) && !cut(110.0) && !cut(108.9));
    let exact = |value| Printed::read("2.0").unwrap().is(value, Rounding::Exact);
    assert!(exact(2.0) && !exact(2.02) && !exact(1.98));
    assert!((given("1-1/2 in").unwrap() - 0.0381).abs() < 1e-15 && given("3/8 in").unwrap() == 0.375 * 0.0254);
    assert_eq!(given("-10 kN"), Ok(-1e4));
}
