//! The TypeScript types of what is given and taken.

use wasm_bindgen::prelude::wasm_bindgen;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** A piece. All but the bass may be left out. Notes, stages and chords are counted from 0. */
export interface Piece {
  /** The bass as it is typed, such as `D minor: D3 C#3:6 D3 A2:4-3 D2`. */
  bass: string;
  title?: string;
  /** Such as `D minor`; found from the bass where neither this nor the bass says it. */
  tonality?: string;
  /** Soprano notes that stay where they are. */
  soprano?: { note: number; stage?: number; pitch: string }[];
  /** From 0, the octave rule's own chords, to 4. */
  daring?: number;
  /** What the soprano begins on. */
  position?: "octave" | "third" | "fifth";
  preference?: "contrary" | "tenths";
  /** Notes of each hand from 1 to 5, spans in white keys crossed: 7 is an octave. */
  hands?: { left?: { notes: number; span: number }; right?: { notes: number; span: number } };
  /** Times up and down from 0 to 4, speed and spice in percent; another seed is another take. */
  roll?: { times?: number; speed?: number; seed?: number; spice?: number };
  sound?: {
    /** Hertz, from 380 to 480. */
    a4?: number;
    temperament?: "equal" | "quarterComma" | "sixthComma" | "werckmeister3" | "kirnberger3" | "vallotti" | "young2";
    voice?: "plucked8" | "plucked84" | "buff" | "struck" | "organ";
  };
}

export interface BassText {
  tonality: string | null;
  notes: { pitch: string; figures: string | null; weight: "unmarked" | "structural" | "passing"; from: number; to: number }[];
  /** What could not be read, with its place in the text. */
  remarks: { from: number; to: number; text: string }[];
}

export interface Chord {
  /** The bass note it stands on, and which stage of its figures. */
  note: number;
  stage: number;
  bass: string;
  soprano: string;
  /** From the bottom up. */
  left: string[];
  right: string[];
  /** As they are typed, such as `6/5`; empty for a bare note. */
  figures: string;
  tonality: string;
  /** Of the bass, from 1 to 7. */
  degree: number;
  /** Why it stands here, in a sentence. */
  reason: string;
}

export interface Fault {
  severity: "fault" | "caution";
  rule: string;
  /** First and last chord. */
  from: number;
  to: number;
  text: string;
}

export interface Realisation {
  tonality: string;
  chords: Chord[];
  faults: Fault[];
  remarks: string[];
  /** What follows `#` in a link that opens the piece. */
  link: string;
}

export interface Touch {
  /** As in MIDI: middle C is 60. */
  key: number;
  pitch: string;
  hand: "left" | "right";
  chord: number;
  /** Seconds from the beginning. */
  down: number;
  up: number;
  velocity: number;
  kind: "chord" | "acciaccatura" | "passing" | "neighbour" | "run" | "ornament" | "anticipation" | "suspension" | "detour";
}

export interface Performance {
  touches: Touch[];
  /** When each chord begins, in seconds. */
  starts: number[];
  end: number;
}

export interface DrawWishes {
  /** Of the page in staff spaces; 90 where nothing is said. */
  width?: number;
  /** Height of a staff space in pixels; 8 where nothing is said. */
  space?: number;
  show?: "bass" | "figures" | "outerVoices" | "everything";
}
"#;
