//! What is always there: timber, mattress and bedding.

use super::hung::Hung;
use crate::platform::{Heaviness, Platform, Stick, WoodChoice};
use crate::quantity::unit::{inch, pascal, pound};
use crate::quantity::{AreaLoad, Force, LineLoad, MassDensity, STANDARD_GRAVITY, weight_of};

/// Dead loads of a platform.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dead {
    /// Mattress and bedding.
    pub cover: AreaLoad,
    /// One slat's own weight per length.
    pub slat: LineLoad,
    /// Each side's cleat.
    pub cleat: [LineLoad; 2],
    /// Each side's rail, with what hangs on it.
    pub rail: [LineLoad; 2],
    /// The guard and the ladder, which the rails' loads hold already.
    pub hung: Hung,
    /// The centre beam, if there is one.
    pub centre_beam: LineLoad,
}

/// Bedding: duvet, pillows, blankets. No source: three to six kilograms a person.
const BEDDING_PASCAL: f64 = 40.0;

/// Moisture content assumed for the weight of timber, percent.
const MOISTURE: f64 = 15.0;

/// Density of wood at 15 % moisture content from its specific gravity `G`:
/// `62.4·G/(1 + G·0.009·m)·(1 + m/100)` lb/ft³.
///
/// # Source
///
/// NDS Supplement 2018, 3.1.3; read in a trade article that quotes it. At 15 % it gives the weights
/// printed beside the AWC's span tables of 1992.
pub fn timber_density(specific_gravity: f64) -> MassDensity {
    let g = specific_gravity;
    let foot = inch(12.0);
    let water = pound(62.4) / (foot * foot * foot);
    water * (g / (1.0 + g * 0.009 * MOISTURE) * (1.0 + MOISTURE / 100.0))
}

/// Density of a wood in a heated room, for weight and slip: [`timber_density`], or a strength class's own
/// mean density.
pub fn density_of(wood: &WoodChoice) -> MassDensity {
    match wood.heaviness() {
        Heaviness::SpecificGravity(g) => timber_density(g.value),
        Heaviness::MeanDensity(density) => density,
    }
}

/// A stick's own weight per length.
pub fn own_weight(s: &Stick) -> LineLoad {
    let gravity = uom::si::f64::Acceleration::new::<uom::si::acceleration::meter_per_second_squared>(STANDARD_GRAVITY);
    LineLoad::from(density_of(&s.wood) * gravity * (s.thickness * s.width))
}

impl Dead {
    /// What the bed's own timber weighs, without guard, ladder, mattress and bedding: slats, cleats, rails, end
    /// rails, centre beam, posts and legs.
    pub fn timber(&self, p: &Platform) -> Force {
        let [from, to] = p.slat_ends();
        let rails = [0, 1].map(|s| self.rail[s] - self.hung.rail[s]);
        let lines = self.cleat[0] + self.cleat[1] + rails[0] + rails[1] + self.centre_beam;
        let mut out = self.slat * (to - from) * p.slats.count as f64 + lines * p.length;
        out += p.end_rails.as_ref().map_or(Force::default(), |e| own_weight(&e.stick) * e.clear(p) * 2.0);
        if let Some(posts) = &p.posts {
            let held = (0..2).filter(|s| p.sides[*s].rail.ends.is_some());
            out += held.fold(Force::default(), |sum, s| sum + own_weight(&posts.stick) * posts.lengths[s] * 2.0);
        }
        if let Some(legs) = p.centre_beam.as_ref().and_then(|beam| beam.legs.as_ref()) {
            out += own_weight(&legs.stick) * legs.length * legs.positions.len() as f64;
        }
        out
    }

    /// The dead loads of a platform.
    pub fn of(p: &Platform) -> Dead {
        let area = p.length * p.width;
        let hung = Hung::of(p);
        Dead {
            cover: weight_of(p.mattress.mass) / area + pascal(BEDDING_PASCAL),
            slat: own_weight(&p.slats.stick),
            cleat: [0, 1].map(|s| own_weight(&p.sides[s].cleat)),
            rail: [0, 1].map(|s| own_weight(&p.sides[s].rail.stick) + hung.rail[s]),
            hung,
            centre_beam: p.centre_beam.as_ref().map_or(LineLoad::default(), |beam| own_weight(&beam.stick)),
        }
    }
}
