//! What every step of a recipe needs: the tool from the drawer, the question to the engine, the
//! step made of its answer.

use super::{
    depth,
    finish::Hole,
    recipe::{Caution, Missing, Setting, Step, Turn, Work},
    tool::{Has, Tool, ToolKind, cutter, material_for},
};
use crate::engine::{
    answer::{Answer, Limit, State},
    cutters::{Cutter, Kind, ToolMaterial},
    cutting::{drilling, handwheel},
    drills::Drill,
    limits::answer,
    machine::Turning,
    quantity::{Angle, Length},
    question::{Cut, Holder, InputError, OnTheMill, Operation, Own},
};

pub(super) type Result<T> = core::result::Result<T, Vec<InputError>>;

/// A drill that was chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bit {
    pub drill: Drill,
    pub has: Has,
}

impl Bit {
    pub fn diameter(self) -> Length {
        self.drill.diameter()
    }
}

/// A recipe while it is made.
pub(super) struct Kit<'a> {
    pub hole: &'a Hole,
    pub setting: &'a Setting<'a>,
    pub steps: Vec<Step>,
    pub cautions: Vec<Caution>,
    pub missing: Vec<Missing>,
}

/// A cut to ask the engine about, and what the quill goes down for it.
pub(super) struct Ask {
    pub work: Work,
    pub tool: ToolKind,
    pub has: Has,
    pub cutter: Cutter,
    pub operation: Operation,
    /// Depth in the engine's question.
    pub depth: Length,
    pub makes: Length,
    pub tip: Length,
    pub why: &'static str,
    pub sources: &'static str,
}

impl<'a> Kit<'a> {
    pub fn new(hole: &'a Hole, setting: &'a Setting<'a>) -> Self {
        Self {
            hole,
            setting,
            steps: Vec::with_capacity(8),
            cautions: Vec::new(),
            missing: Vec::new(),
        }
    }

    pub fn material(&self) -> ToolMaterial {
        material_for(self.setting.stock)
    }

    /// The smallest cutter in the drawer that will do, by diameter.
    pub fn drawer(&self, will_do: impl Fn(&Cutter) -> bool) -> Option<Cutter> {
        let cutters = self.setting.cutters?.iter().filter(|cutter| will_do(cutter));
        cutters.copied().reduce(|a, b| if b.diameter < a.diameter { b } else { a })
    }

    /// The cutter of the drawer, or one as it is commonly made.
    pub fn or_common(&self, found: Option<Cutter>, common: Cutter) -> (Cutter, Has) {
        match found {
            Some(cutter) => (cutter, Has::Yes),
            None if self.setting.cutters.is_some() => (common, Has::No),
            None => (common, Has::Unknown),
        }
    }

    pub fn drill_cutter(&self, diameter: Length) -> Cutter {
        cutter(Kind::Drill { point_angle: self.setting.point_angle }, diameter, 2, self.material())
    }

    /// Length of a drill's point.
    pub fn point(&self, diameter: Length) -> Length {
        drilling::point_length_of(diameter, self.setting.point_angle)
    }

    /// How deep the tip of a drill goes for a depth at the full diameter.
    pub fn drill_tip(&self, diameter: Length, full: Length) -> Length {
        let out = if self.hole.is_through() { depth::breakthrough() } else { Length::ZERO };
        full + self.point(diameter) + out
    }

    /// Asks the engine.
    pub fn answer(
        &self,
        cutter: Cutter,
        operation: Operation,
        depth: Length,
        own: Own,
    ) -> Result<Answer> {
        let setting = self.setting;
        let mill = OnTheMill {
            machine: setting.machine,
            stock: setting.stock,
            cutter,
            runout: None,
            holder: match cutter.kind {
                Kind::EndMill { .. } => Holder::Collet,
                _ => Holder::DrillChuck,
            },
            worn: false,
        };
        let cut = Cut {
            operation,
            depth,
            length: None,
            finish: false,
            coolant: setting.coolant,
            style: setting.style,
            own,
        };
        answer(&mill, &cut)
    }

    /// Asks the engine, and makes a step of its answer.
    pub fn cut(&mut self, ask: Ask) -> Result<()> {
        let answer = self.answer(ask.cutter, ask.operation, ask.depth, Own::default())?;
        self.push(ask, answer);
        Ok(())
    }

    /// Makes a step of an answer.
    pub fn push(&mut self, ask: Ask, answer: Answer) {
        // A drill's targets are depths at its full diameter; its tip is ahead of them.
        let ahead = match ask.cutter.kind {
            Kind::Drill { point_angle } => drilling::point_length_of(ask.makes, point_angle),
            _ => Length::ZERO,
        };
        let pecks = match &answer.passes {
            Some(passes) if passes.pecks && passes.targets.len() > 1 => {
                let last = passes.targets.len() - 1;
                let tip = |(i, &full)| if i == last { ask.tip } else { full + ahead };
                passes.targets.iter().enumerate().map(tip).collect()
            }
            _ => Vec::new(),
        };
        let over =
            answer.limits.iter().find(|r| r.state == State::Over && r.limit != Limit::Runout);
        if let Some(reading) = over {
            self.cautions.push(Caution::Over { step: self.steps.len(), limit: reading.limit });
        }
        // A cone in a hole cuts no deeper than its ring; the tip runs ahead in air.
        let cuts = match ask.operation {
            Operation::Countersink { .. } => ask.depth,
            _ => ask.tip,
        };
        self.need(ask.work, &ask.tool, ask.has);
        self.steps.push(Step {
            work: ask.work,
            tool: Tool { kind: ask.tool, has: ask.has },
            turn: Some(Turn {
                into: Turning::Clockwise,
                switch: answer.speed.switch.clone(),
                out: None,
                switch_out: None,
            }),
            makes: ask.makes,
            full: ask.depth,
            tip: ask.tip,
            pecks,
            turns: None,
            time: answer.feed.map(|feed| handwheel::travel_time_of(cuts, feed.rate)),
            lubricant: self.setting.stock.coolant,
            why: ask.why,
            sources: ask.sources,
            answer: Some(answer),
        });
    }

    /// Notes a tool that is not in the drawer.
    pub fn need(&mut self, work: Work, tool: &ToolKind, has: Has) {
        if has == Has::No {
            self.missing.push(Missing { tool: Tool { kind: tool.clone(), has }, work });
        }
    }
}

/// True for an angle as it is asked: a degree more or less is ground away.
pub(super) fn same_angle(a: Angle, b: Angle) -> bool {
    (a - b).abs() <= Angle::degree(1.0)
}
