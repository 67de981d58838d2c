//! Short tones at exact times.
//!
//! A tone is handed to the audio clock ahead of its time, so that a busy page does not delay it.

use std::{cell::RefCell, rc::Rc};

use crate::browser::window;
use js_sys::Reflect;
use wasm_bindgen::JsValue;
use web_sys::{AudioContext, AudioContextState, GainNode, OscillatorType};

/// One tone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tone {
    /// Its pitch in hertz.
    pub hertz: f32,
    /// How long it is heard, in seconds.
    pub lasts: f64,
}

/// What the tones come out of.
#[derive(Clone)]
pub struct Speaker {
    context: AudioContext,
    out: Rc<RefCell<GainNode>>,
}

impl Speaker {
    /// Opens it; to be called in a tap, or the browser keeps it silent. `None` where there is
    /// none.
    #[must_use]
    pub fn open() -> Option<Self> {
        play_past_the_silent_switch();
        let context = AudioContext::new().ok()?;
        let out = Rc::new(RefCell::new(way_out(&context).ok()?));
        // It may already be running; a refusal shows in its state.
        let _ = context.resume();
        Some(Self { context, out })
    }

    /// True while it can be heard and its clock runs.
    #[must_use]
    pub fn is_running(&self) -> bool {
        self.context.state() == AudioContextState::Running
    }

    /// Its clock, in seconds.
    #[must_use]
    pub fn now(&self) -> f64 {
        self.context.current_time()
    }

    /// Lets a tone be heard at a time of its clock. What it refuses is not heard, nothing more.
    pub fn sound(&self, at: f64, tone: Tone) {
        let _ = self.try_sound(at, tone);
    }

    fn try_sound(&self, at: f64, tone: Tone) -> Result<(), JsValue> {
        let source = self.context.create_oscillator()?;
        let shape = self.context.create_gain()?;
        source.set_type(OscillatorType::Triangle);
        source.frequency().set_value(tone.hertz);
        // Without a slope at both ends a loudspeaker cracks.
        let gain = shape.gain();
        gain.set_value_at_time(0.0, at)?;
        gain.linear_ramp_to_value_at_time(1.0, at + SLOPE)?;
        gain.set_value_at_time(1.0, (at + tone.lasts - SLOPE).max(at + SLOPE))?;
        gain.linear_ramp_to_value_at_time(0.0, at + tone.lasts)?;
        source.connect_with_audio_node(&shape)?;
        shape.connect_with_audio_node(&self.out.borrow())?;
        source.start_with_when(at)?;
        source.stop_with_when(at + tone.lasts)
    }

    /// Lets go of what was handed to it and not yet heard: after a call that stopped its clock
    /// those tones would come late, among the ones handed to it anew.
    pub fn forget(&self) {
        let _ = self.out.borrow().disconnect();
        if let Ok(out) = way_out(&self.context) {
            self.out.replace(out);
        }
    }

    /// Silent from now on, whatever was handed to it.
    pub fn close(&self) {
        let _ = self.out.borrow().disconnect();
        let _ = self.context.close();
    }
}

fn way_out(context: &AudioContext) -> Result<GainNode, JsValue> {
    let out = context.create_gain()?;
    out.connect_with_audio_node(&context.destination())?;
    Ok(out)
}

const SLOPE: f64 = 0.004;

/// On a phone whose silent switch is on, a page is heard only if it says that it plays.
fn play_past_the_silent_switch() {
    let navigator = window().navigator();
    if let Ok(session) = Reflect::get(&navigator, &"audioSession".into())
        && session.is_object()
    {
        let _ = Reflect::set(&session, &"type".into(), &"playback".into());
    }
}

/// True where the browser can let the device be felt; whether the device can, nobody says.
#[must_use]
pub fn can_shake() -> bool {
    Reflect::has(&window().navigator(), &"vibrate".into()).unwrap_or(false)
}

/// Lets the device be felt for so many milliseconds, where it can. Never the only sign.
pub fn shake(milliseconds: u32) {
    if can_shake() {
        window().navigator().vibrate_with_duration(milliseconds);
    }
}
