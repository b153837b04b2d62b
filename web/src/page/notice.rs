//! Short messages: one visible line that can be closed, and the same words for
//! a screen reader.

use super::controls::press;
use super::{act, dom, store};
use crate::app::Intent;

/// Shows a message and has it read out.
pub(super) fn say(text: &str) {
    dom::set_text("notice-text", text);
    dom::set_hidden("notice-act", true);
    dom::set_hidden("notice", false);
}

/// Shows a message with something to press.
pub(super) fn offer(text: &str, deed: &str) {
    say(text);
    dom::set_text("notice-act", deed);
    dom::set_hidden("notice-act", false);
}

/// Has words read out without showing them.
pub(super) fn announce(text: &str) {
    dom::set_text("say", text);
}

/// Takes the message away.
pub(super) fn close() {
    dom::set_hidden("notice", true);
}

/// Listens to the message's buttons.
pub(super) fn wire() {
    press("notice-close", close);
    press("notice-act", || {
        close();
        if let Some(sketch) = store::put_aside() {
            act(Intent::Open(Box::new(sketch)));
        }
    });
}
