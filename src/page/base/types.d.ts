// What the server answers, as the modules of the page use it. The words are those of src/app/serve.

export interface Caution { title?: string; text: string }
export interface Latch { id: string; name: string }
export interface Conversion { id: string; name: string; what: string; latches: Latch[] }
export interface Instrument { id: string; name: string; family: string; conversions: Conversion[]; latches: Latch[] }
export interface Program {
  version: string;
  levels: string[];
  instruments: Instrument[];
  demos: { id: string; title: string; instrument: string }[];
  engraver: boolean;
  guide: boolean;
  repertoire: boolean;
  roster: boolean;
  cautions: (string | Caution)[];
  limits: { upload_bytes: number };
  lanes?: { hatching: string; legend: string };
}
export interface Part { id: string; name: string; notes: number; staves: number[]; voices: { voice: string; staff: number; notes: number }[]; bars: string[]; instruments: string[] }
export interface Score { score: string; name: string; title: string; parts: Part[] }
export interface Pin { note: number; press: string[]; half: string[]; flick: string[]; whole: boolean }
export interface Stretch { first: number; last: number; touches: string[] }
export interface Choices { pins: Pin[]; bans: Stretch[]; holds: Stretch[] }
export interface PassageNote {
  i: number; bar: string; beat: string; name: string; other?: string; midi: number; onset_ms: number; length_ms: number;
  slurred: boolean; rest_before: boolean;
}
export interface Passage {
  title: string; part: string; bars: { name: string; start_ms: number; first_note: number; pass: number }[]; tempo_qpm: number;
  length_ms: number; notes: PassageNote[];
}
export interface PlannedNote {
  compact: string; other_compact?: string; mark?: string; matters: boolean; choices: number; needs?: number; there_is?: number;
  load?: number; fits: boolean; rate?: number; warnings?: string[]; pinned?: boolean;
}
export interface Moment { note: number; where: string; what: string; fits: boolean }
export interface Side {
  instrument: string; name?: string; fits: boolean; complete: boolean; ceiling_qpm: number | null; best_ceiling_qpm: number | null; awkwardness: number;
  worst_load: number; facts: { label: string; text: string }[]; decides: string; notes: PlannedNote[]; hardest: Moment[];
  not_playable: unknown[]; assumed: unknown[];
}
export interface Compared {
  verdict: string; totals: { label: string; stock: string; converted: string }[];
  differing: { note: number; where: string; stock: string; converted: string }[]; gained: { note: string; fingerings: string[] }[]; lost: { note: string; fingerings: string[] }[];
}
export interface Plan { plan: string; passage: Passage; sides: Side[]; remarks: unknown[]; compare?: Compared; cautions: (string | Caution)[] }
export interface Option {
  pin: { press: string[]; half: string[]; flick: string[] } | null; words: { finger: string; holds: string }[]; compact: string; other_compact?: string; mark?: string;
  origin?: string; standing?: string; way?: string; traits?: string[]; tendency?: string; source?: string; confidence?: string; remark?: string; dearer: number;
  here: { when: string; term: string; points: number }[]; elsewhere: { note: number; where: string }[]; svg?: string;
}
export interface Engraving { musicxml: string; elements: (string | null)[] }
export interface Trills {
  notes: string[];
  pairs: { from: string; to: string; semitones: number; kind: string; rate: number | null; verdict: string }[];
}
export interface Settings {
  part: string; voice: string; staff: string; bars: string; divisi: string; as_written: boolean; concert: boolean; latches: string[]; base: string; conversions: string[];
  with_base: string; with_conversions: string[]; level: string; player: string; player_name: string; tempo: number | null;
  objective: string;
}
/** How a score was brought, so that it can be brought again when the server no longer keeps it. */
export type Origin = { demo: string } | { token: string } | { name: string; bytes: ArrayBuffer };
export interface Snapshot { sides: [Choices, Choices] }
export interface State {
  program: Program; view: string; score: Score | null; origin: Origin | null; settings: Settings; choices: [Choices, Choices];
  plan: Plan | null; side: number; open: { side: number; note: number } | null; busy: boolean; fault: string[]; loop: [string, string] | null;
  done: number; undone: number;
}
