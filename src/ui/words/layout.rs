//! The words of hole layouts.

use crate::{
    engine::{layout::moved::Mirror, question::Field},
    shop::layout::{LayoutForm, Shape},
    ui::words,
};

/// What a pattern is called, and a few words more.
#[must_use]
pub fn shape(shape: Shape) -> (&'static str, &'static str) {
    match shape {
        Shape::Circle => ("Bolt circle", "all the way round"),
        Shape::Arc => ("Part of a circle", "by step or by span"),
        Shape::Row => ("Row", "one step after another"),
        Shape::Grid => ("Grid", "rows and columns"),
        Shape::Rectangle => ("Rectangle", "along its sides"),
        Shape::List => ("X and Y", "one by one"),
        Shape::Polar => ("Radius and angle", "one by one"),
        Shape::Steps => ("Arc in steps", "the cutter, not holes"),
    }
}

/// What an entry is called for a pattern.
#[must_use]
pub fn field(form: &LayoutForm, field: Field) -> &'static str {
    match (form.shape, field) {
        (Shape::Arc, Field::StepAngle) if form.by_span => "Angle from first hole to last",
        (Shape::Grid, Field::Holes) => "Columns, along X",
        (Shape::Grid, Field::Rows) => "Rows, along Y",
        (Shape::Rectangle, Field::Holes) => "Holes along X, both corners counted",
        (Shape::Rectangle, Field::Rows) => "Holes along Y, both corners counted",
        (Shape::Row | Shape::Grid, Field::CentreX) => "First hole, X",
        (Shape::Row | Shape::Grid, Field::CentreY) => "First hole, Y",
        (Shape::Rectangle, Field::CentreX) => "Corner hole, X",
        (Shape::Rectangle, Field::CentreY) => "Corner hole, Y",
        (Shape::Steps, Field::Diameter) => "Diameter of the cutter",
        (Shape::Steps, Field::StartAngle) => "Angle to begin at",
        (Shape::Steps, Field::StepAngle) => "Angle of one step",
        (_, Field::Depth) => "Depth, on the readout",
        (_, field) => words::field(field),
    }
}

/// What one place of a pattern is called.
#[must_use]
pub fn one(shape: Shape) -> &'static str {
    if shape == Shape::Steps { "Place" } else { "Hole" }
}

/// So many places.
#[must_use]
pub fn count(shape: Shape, count: usize) -> String {
    match (shape, count) {
        (Shape::Steps, _) => format!("{count} places of the cutter"),
        (_, 1) => "1 hole".to_owned(),
        _ => format!("{count} holes"),
    }
}

/// The line a pattern is mirrored at.
#[must_use]
pub fn mirror(mirror: Option<Mirror>) -> &'static str {
    match mirror {
        None => "As drawn",
        Some(Mirror::LeftRight) => "Left to right",
        Some(Mirror::FrontBack) => "Front to back",
    }
}
