//! How deep each tool goes: cones from their diameters, and the chain of a blind tapped hole.

use crate::engine::{
    cutting::drilling,
    quantity::{Angle, Length},
    question::{Field, InputError},
};

/// Source of every formula here: geometry.
pub const SOURCE: &str = "F_GEOMETRY";

/// How far a drill's lips go on beyond the far face of a through hole, so that the hole is clean.
/// Common practice.
#[must_use]
pub fn breakthrough() -> Length {
    Length::inch(0.030)
}

/// Depth of a cone between two diameters, from the surface to where it meets the hole:
/// (Dc - d) / (2 tan(angle/2)). A hole of nothing gives the depth of the tip, as a spot needs.
///
/// # Errors
/// A countersink that is not larger than the hole, or an angle that is none.
pub fn countersink_depth(
    countersink: Length,
    hole: Length,
    included_angle: Angle,
) -> Result<Length, InputError> {
    let cone = tip_of_cone(Field::Countersink, "The countersink", countersink, included_angle)?;
    if !hole.is_finite() || hole < Length::ZERO {
        return Err(not_a_size(Field::Hole, "The hole"));
    }
    if hole >= countersink {
        return Err(InputError::new(
            Field::Countersink,
            "The countersink is no larger than the hole.",
            "Enter the diameter at the surface; it is larger than the hole.",
        ));
    }
    Ok(cone - drilling::point_length_of(hole, included_angle))
}

/// Depth of the tip that gives a chamfer of this width, measured along the surface, on the edge of
/// a hole.
///
/// # Errors
/// A size or an angle that is none.
pub fn chamfer_tip_depth(
    hole: Length,
    chamfer: Length,
    included_angle: Angle,
) -> Result<Length, InputError> {
    if !hole.is_positive() {
        return Err(not_a_size(Field::Hole, "The hole"));
    }
    if !chamfer.is_positive() {
        return Err(not_a_size(Field::Chamfer, "The chamfer"));
    }
    tip_of_cone(Field::Chamfer, "The chamfer", hole + chamfer * 2.0, included_angle)
}

/// Depth of the tip of a spot drill for a spot of this diameter.
///
/// # Errors
/// A size or an angle that is none.
pub fn spot_depth(spot: Length, point_angle: Angle) -> Result<Length, InputError> {
    tip_of_cone(Field::Spot, "The spot", spot, point_angle)
}

fn tip_of_cone(
    field: Field,
    what: &str,
    diameter: Length,
    angle: Angle,
) -> Result<Length, InputError> {
    if !diameter.is_positive() {
        return Err(not_a_size(field, what));
    }
    if !angle.is_positive() || angle >= Angle::degree(180.0) {
        return Err(InputError::new(
            Field::PointAngle,
            "An included angle lies above 0 and under 180 degrees.",
            "Countersinks have 82 or 90 degrees, drills 118 or 135.",
        ));
    }
    Ok(drilling::point_length_of(diameter, angle))
}

fn not_a_size(field: Field, what: &str) -> InputError {
    InputError::new(field, format!("{what} must be above 0."), "Enter a size such as 1/4 or 6 mm.")
}

/// The chain of depths of a blind tapped hole: thread, the chamfer of the tap, something to spare
/// for chips, the point of the drill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlindThread {
    full_thread: Length,
    pitch: Length,
    chamfer_threads: f64,
    spare: Length,
}

impl BlindThread {
    /// A chain from the length of full thread, the pitch, the threads of the tap's chamfer, and
    /// what is left for chips.
    ///
    /// # Errors
    /// Every figure that is none, at its field.
    pub fn new(
        full_thread: Length,
        pitch: Length,
        chamfer_threads: f64,
        spare: Length,
    ) -> Result<Self, InputError> {
        if !full_thread.is_positive() {
            return Err(not_a_size(Field::FullThread, "The length of thread"));
        }
        if !pitch.is_positive() {
            return Err(not_a_size(Field::Pitch, "The pitch"));
        }
        if !(0.0..=20.0).contains(&chamfer_threads) {
            return Err(InputError::new(
                Field::TapChamfer,
                "A tap's chamfer has between 0 and 20 threads.",
                "A taper tap has 7 to 10, a plug tap 3 to 5, a bottoming tap 1 to 2.",
            ));
        }
        if !spare.is_finite() || spare < Length::ZERO {
            return Err(InputError::new(
                Field::Spare,
                "What is left for chips cannot be less than 0.",
                "One or two pitches are usual.",
            ));
        }
        Ok(Self { full_thread, pitch, chamfer_threads, spare })
    }

    /// Length of full thread.
    #[must_use]
    pub fn full_thread(&self) -> Length {
        self.full_thread
    }

    /// How deep the drill goes at its full diameter: t + c P + s.
    #[must_use]
    pub fn full_depth(&self) -> Length {
        self.tap_travel() + self.spare
    }

    /// How deep the tip of the drill goes: the full depth and the point.
    ///
    /// # Errors
    /// A drill or an angle that is none.
    pub fn tip_depth(&self, drill: Length, point_angle: Angle) -> Result<Length, InputError> {
        Ok(self.full_depth() + tip_of_cone(Field::Hole, "The drill", drill, point_angle)?)
    }

    /// What is left under the tip in a plate; less than nothing where it breaks through.
    ///
    /// # Errors
    /// A drill, an angle or a plate that is none.
    pub fn floor(
        &self,
        drill: Length,
        point_angle: Angle,
        plate: Length,
    ) -> Result<Length, InputError> {
        if !plate.is_positive() {
            return Err(not_a_size(Field::Plate, "The thickness of the plate"));
        }
        Ok(plate - self.tip_depth(drill, point_angle)?)
    }

    /// How far the tap goes in: thread and chamfer.
    #[must_use]
    pub fn tap_travel(&self) -> Length {
        self.full_thread + self.pitch * self.chamfer_threads
    }

    /// Turns of the tap for its travel.
    #[must_use]
    pub fn tap_turns(&self) -> f64 {
        self.tap_travel() / self.pitch
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plug() -> BlindThread {
        let pitch = Length::inch(0.050);
        BlindThread::new(Length::inch(0.5), pitch, 4.0, pitch).expect("a chain")
    }

    fn is(got: Length, inch: f64) -> bool {
        (got.to_inch() - inch).abs() < 5e-5
    }

    #[test]
    fn a_quarter_inch_thread_by_plug_tap_breaks_through_a_three_quarter_plate() {
        let (drill, angle) = (Length::inch(0.201), Angle::degree(118.0));
        let chain = plug();
        assert!(is(chain.full_depth(), 0.750) && is(chain.tap_travel(), 0.700));
        assert!((chain.tap_turns() - 14.0).abs() < 1e-9);
        assert!(is(chain.tip_depth(drill, angle).expect("a tip"), 0.8104));
        assert!(chain.floor(drill, angle, Length::inch(0.75)).expect("a floor") < Length::ZERO);
    }

    #[test]
    fn a_deeper_thread_never_leaves_a_higher_floor() {
        let (drill, angle) = (Length::mm(5.0), Angle::degree(135.0));
        let mut last = None;
        for step in 1..200 {
            let thread = Length::mm(f64::from(step) * 0.1);
            let chain = BlindThread::new(thread, Length::mm(1.0), 4.0, Length::mm(1.0));
            let floor =
                chain.and_then(|c| c.floor(drill, angle, Length::mm(15.0))).expect("a floor");
            assert!(last.is_none_or(|higher| floor < higher));
            last = Some(floor);
        }
    }

    #[test]
    fn a_spot_is_as_deep_as_its_angle_makes_it() {
        let depth = |mm, angle| spot_depth(Length::mm(mm), Angle::degree(angle)).expect("a depth");
        assert!((depth(4.4, 90.0).to_mm() - 2.2).abs() < 1e-9);
        assert!(depth(4.4, 120.0) < depth(4.4, 90.0));
        let ring = chamfer_tip_depth(Length::inch(0.25), Length::inch(0.015), Angle::degree(90.0));
        assert!(is(ring.expect("a depth"), 0.140));
    }

    #[test]
    fn what_cannot_be_is_a_sentence_at_its_field() {
        let inch = Length::inch;
        let right = Angle::degree(90.0);
        let chain = |thread, pitch, chamfer, spare| {
            BlindThread::new(inch(thread), inch(pitch), chamfer, inch(spare))
                .expect_err("bad")
                .field
        };
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(chain(bad, 0.05, 4.0, 0.05), Field::FullThread);
            assert_eq!(chain(0.5, bad, 4.0, 0.05), Field::Pitch);
            assert_eq!(spot_depth(inch(bad), right).expect_err("bad").field, Field::Spot);
            let floor = plug().floor(inch(0.2), right, inch(bad));
            assert_eq!(floor.expect_err("bad").field, Field::Plate);
            let angle = countersink_depth(inch(0.3), inch(0.2), Angle::degree(bad));
            assert_eq!(angle.expect_err("bad").field, Field::PointAngle);
        }
        for bad in [-1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(chain(0.5, 0.05, bad, 0.05), Field::TapChamfer);
            assert_eq!(chain(0.5, 0.05, 4.0, bad), Field::Spare);
        }
        let small = countersink_depth(inch(0.2), inch(0.2), right).expect_err("no larger");
        assert_eq!(small.field, Field::Countersink);
        assert!(small.problem.ends_with('.') && small.hint.ends_with('.'), "{small}");
    }
}
