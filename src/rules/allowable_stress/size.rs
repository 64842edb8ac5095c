//! Size factor and flat use factor.

use super::factors::Property;
use super::nds;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::{Length, Ratio, number, unit::inch};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};
use crate::tables::lumber::SupplementTable;

const CF: Citation = nds("4.3.6", Seen::Secondary);
const CFU: Citation = nds("4.3.7", Seen::Memory);

/// The groups of grades between which size factors differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum GradeGroup {
    Structural,
    Stud,
    LightFraming,
    Utility,
}

fn normal(grade: &str) -> String {
    grade.chars().filter(char::is_ascii_alphanumeric).map(|c| c.to_ascii_lowercase()).collect()
}

fn group_of(grade: &str) -> Result<GradeGroup, RuleError> {
    Ok(match normal(grade).as_str() {
        "stud" => GradeGroup::Stud,
        "construction" | "standard" => GradeGroup::LightFraming,
        "utility" => GradeGroup::Utility,
        g if g.contains("select") || g.contains("no1") || g.contains("no2") || g.contains("no3") => {
            GradeGroup::Structural
        }
        "ss" => GradeGroup::Structural,
        _ => {
            return Err(RuleError::not_covered(
                format!("grade {grade:?}"),
                "size factors are given for Select Structural, No.1, No.2, No.3, Stud, Construction, Standard and \
                 Utility",
            ));
        }
    })
}

/// Refuses stock outside a table's sizes: dimension lumber is 2 to 4 in thick, timbers 5 in and up.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for any other nominal thickness.
pub fn covered_thickness(table: SupplementTable, nominal: (f64, f64)) -> Result<(), RuleError> {
    let thin = nominal.0.min(nominal.1);
    let (ok, why) = match table {
        SupplementTable::Timber => (thin >= 5.0, "reference values for timbers begin at 5 in nominal thickness"),
        _ => ((2.0..=4.0).contains(&thin), "reference values for dimension lumber are for 2 to 4 in nominal thickness"),
    };
    if ok { Ok(()) } else { Err(RuleError::not_covered(format!("graded lumber of {thin} in nominal thickness"), why)) }
}

/// Size factor `CF` on `Fb`, `Ft` and `Fc`; `nominal` is thickness and width in inches.
///
/// Table 4A (all species but southern pine), for `Fb` at 2 and 3 in thickness, `Fb` at 4 in, `Ft`, `Fc`:
///
/// | grades | width | | | | |
/// |---|---|---|---|---|---|
/// | Select Structural, No.1 to No.3 | 2, 3, 4 | 1.5 | 1.5 | 1.5 | 1.15 |
/// | | 5 | 1.4 | 1.4 | 1.4 | 1.1 |
/// | | 6 | 1.3 | 1.3 | 1.3 | 1.1 |
/// | | 8 | 1.2 | 1.3 | 1.2 | 1.05 |
/// | | 10 | 1.1 | 1.2 | 1.1 | 1.0 |
/// | | 12 | 1.0 | 1.1 | 1.0 | 1.0 |
/// | | 14 and up | 0.9 | 1.0 | 0.9 | 0.9 |
/// | Stud | 2, 3, 4 | 1.1 | 1.1 | 1.1 | 1.05 |
/// | | 5, 6 | 1.0 | 1.0 | 1.0 | 1.0 |
/// | Construction, Standard | 2, 3, 4 | 1.0 | 1.0 | 1.0 | 1.0 |
/// | Utility | 4 | 1.0 | 1.0 | 1.0 | 1.0 |
/// | | 2, 3 | 0.4 | – | 0.4 | 0.6 |
///
/// A width between two rows takes the wider row. Table 4B (southern pine) has the factor in its
/// values: 1.0, but 1.1 on `Fb` when 4 in thick and 8 to 12 in wide, and 0.9 beyond 12 in. Table 4D:
/// `CF = (12 in / d)^(1/9)` on `Fb` when `d` exceeds 12 in, otherwise 1.0.
///
/// # Source
///
/// NDS 2018 4.3.6 and Supplement Tables 4A, 4B, 4D. 4A was read in three summaries that agree, and
/// the span tables in `tests/` confirm its first numeric column; 4B is from memory.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for a grade or a width the table has no row for, and for thicknesses
/// outside the table ([`covered_thickness`]).
pub fn size_factor(
    table: SupplementTable,
    grade: &str,
    property: Property,
    nominal: (f64, f64),
    depth: Length,
) -> Result<Worked<Ratio>, RuleError> {
    covered_thickness(table, nominal)?;
    if !matches!(property, Property::Bending | Property::Tension | Property::CompressionParallel) {
        return Ok(plain(1.0).step("CF", CF));
    }
    let (thickness, width) = (nominal.0.min(nominal.1), nominal.0.max(nominal.1));
    Ok(match table {
        SupplementTable::DimensionLumber => plain(dimension_lumber(grade, property, thickness, width)?).step("CF", CF),
        SupplementTable::SouthernPine => {
            let value = match (width > 12.0, thickness >= 4.0 && width >= 8.0, property) {
                (true, _, _) => 0.9,
                (_, true, Property::Bending) => 1.1,
                _ => 1.0,
            };
            plain(value).step("CF", nds("4.3.6", Seen::Memory))
        }
        SupplementTable::Timber if property == Property::Bending && depth > inch(12.0) => {
            (constant(inch(12.0)) / given("d", depth)).power(1.0 / 9.0).step("CF", nds("4.3.6.3", Seen::Secondary))
        }
        SupplementTable::Timber => plain(1.0).step("CF", nds("4.3.6.3", Seen::Secondary)),
    })
}

fn dimension_lumber(grade: &str, property: Property, thickness: f64, width: f64) -> Result<f64, RuleError> {
    let column = match property {
        Property::Bending if thickness >= 4.0 => 1,
        Property::Bending => 0,
        Property::Tension => 2,
        _ => 3,
    };
    let too_wide = |limit: &str| {
        RuleError::not_covered(
            format!("{grade} lumber of {width} in nominal width"),
            format!("the grade has values for widths up to {limit} in only"),
        )
    };
    let row = match group_of(grade)? {
        GradeGroup::Structural => match width {
            w if w <= 4.0 => [1.5, 1.5, 1.5, 1.15],
            w if w <= 5.0 => [1.4, 1.4, 1.4, 1.1],
            w if w <= 6.0 => [1.3, 1.3, 1.3, 1.1],
            w if w <= 8.0 => [1.2, 1.3, 1.2, 1.05],
            w if w <= 10.0 => [1.1, 1.2, 1.1, 1.0],
            w if w <= 12.0 => [1.0, 1.1, 1.0, 1.0],
            _ => [0.9, 1.0, 0.9, 0.9],
        },
        GradeGroup::Stud => match width {
            w if w <= 4.0 => [1.1, 1.1, 1.1, 1.05],
            w if w <= 6.0 => [1.0; 4],
            _ => return Err(too_wide("6")),
        },
        GradeGroup::LightFraming if width <= 4.0 => [1.0; 4],
        GradeGroup::Utility if width <= 4.0 && width > 3.0 => [1.0; 4],
        GradeGroup::Utility if width <= 3.0 => [0.4, 0.4, 0.4, 0.6],
        GradeGroup::LightFraming | GradeGroup::Utility => return Err(too_wide("4")),
    };
    Ok(row[column])
}

/// Flat use factor `Cfu` on `Fb` when the load is on the wide face; used together with `CF`.
///
/// | nominal width | 2, 3 | 4 | 5 | 6 | 8 | 10 and up |
/// |---|---|---|---|---|---|---|
/// | 2 and 3 in thick | 1.0 | 1.1 | 1.1 | 1.15 | 1.15 | 1.2 |
/// | 4 in thick | – | 1.0 | 1.05 | 1.05 | 1.05 | 1.1 |
///
/// A width between two columns takes the narrower. Beams and stringers (timbers more than 2 in wider
/// than thick): Select Structural 0.86, No.1 0.74, No.2 1.0; posts and timbers 1.0.
///
/// # Source
///
/// NDS 2018 4.3.7 and Supplement Tables 4A, 4B, 4D, from memory; that the factor exists and
/// multiplies `CF` was read.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for beams and stringers of another grade.
pub fn flat_use(table: SupplementTable, grade: &str, nominal: (f64, f64)) -> Result<Worked<Ratio>, RuleError> {
    let (thickness, width) = (nominal.0.min(nominal.1), nominal.0.max(nominal.1));
    let value = if table == SupplementTable::Timber {
        if width <= thickness + 2.0 { 1.0 } else { stringer(grade, "Fb", [0.86, 0.74, 1.0])? }
    } else {
        match (thickness >= 4.0, width) {
            (false, w) if w < 4.0 => 1.0,
            (false, w) if w < 6.0 => 1.1,
            (false, w) if w < 10.0 => 1.15,
            (false, _) => 1.2,
            (true, w) if w < 5.0 => 1.0,
            (true, w) if w < 10.0 => 1.05,
            (true, _) => 1.1,
        }
    };
    Ok(plain(value).step("Cfu", CFU))
}

/// The flat use factor's counterpart on `E` and `Emin` of beams and stringers: Select Structural
/// 1.0, No.1 0.9, No.2 1.0.
///
/// # Source
///
/// NDS 2018 Supplement Table 4D, from memory.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for beams and stringers of another grade.
pub fn flat_use_of_modulus(table: SupplementTable, grade: &str, nominal: (f64, f64)) -> Result<Ratio, RuleError> {
    let (thickness, width) = (nominal.0.min(nominal.1), nominal.0.max(nominal.1));
    if table != SupplementTable::Timber || width <= thickness + 2.0 {
        return Ok(number(1.0));
    }
    stringer(grade, "E", [1.0, 0.9, 1.0]).map(number)
}

fn stringer(grade: &str, property: &str, [select, no1, no2]: [f64; 3]) -> Result<f64, RuleError> {
    let g = normal(grade);
    if g.contains("select") || g.ends_with("ss") {
        Ok(select)
    } else if g.contains("no1") {
        Ok(no1)
    } else if g.contains("no2") {
        Ok(no2)
    } else {
        Err(RuleError::not_covered(
            format!("{grade} beams and stringers loaded on the wide face"),
            format!("no flat use factor on {property} is given for the grade"),
        ))
    }
}
