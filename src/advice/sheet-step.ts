import type { Connection } from '#record/connection.ts';
import type { FrequencyUnits, WordsName } from '#record/language.ts';
import type { Assumption } from '#record/set-facts.ts';
import type { Caution } from './caution.ts';
import type { SwitchablePad } from './switchable-pad.ts';

/** Groups in the order of the work. */
export type StepGroup = 'triage' | 'preparation' | 'IF' | 'wave trap' | 'high end' | 'low end' | 'proof';

/** What an adjuster is turned for. */
export const aims = ['maximum', 'minimum', 'symmetry', 'dial'] as const;
/** One of the aims. */
export type Aim = (typeof aims)[number];

/** How generator and set are joined for a step, as the hook-up drawing shows it. */
export interface HookUp {
	readonly connection: Connection;
	/** What is touched, where the connection does not say it: a gate of its own stands before it. */
	readonly contact?: 'each grid';
	/** Where the hot lead goes: "converter grid, pin 8". */
	readonly point: string;
	/** Dummy antenna or blocking capacitor, "0.1 mfd", and why. */
	readonly dummy: string;
	readonly why: string;
	/** Where the generator's ground lead goes, or how the signal is coupled without one. */
	readonly ground: string;
}

/** What the generator gives in a step. */
export interface GeneratorRow {
	readonly frequencyHz: number | null;
	readonly modulated: boolean;
	readonly toneHz: number;
	readonly depth: number;
	readonly levelRule: string;
	readonly words: string;
}

/** Where the set's dial stands. */
export interface DialRow {
	readonly kind: 'mark' | 'closed' | 'open' | 'quiet spot' | 'as found';
	readonly frequencyHz: number | null;
	readonly words: string;
}

/** What is read, and where. */
export interface Indicator {
	readonly quantity: 'tone' | 'AVC volts' | 'DC volts' | 'AC volts';
	readonly where: string;
}

/** A question of a check step; an answer of another kind than asked is refused. */
export interface StepQuestion {
	readonly id: string;
	readonly words: string;
	readonly answer: 'yes or no' | 'volts' | 'frequency' | 'words';
}

/** One step of the sheet. Steps of kind `adjust` are worked with a live meter, adjusters in the order given. */
export interface SheetStep {
	readonly id: string;
	/** As printed: 1, 2, 3 ... */
	readonly number: number;
	readonly group: StepGroup;
	readonly kind: 'check' | 'prepare' | 'adjust' | 'measure';
	readonly title: string;
	readonly band: string | null;
	readonly instructions: readonly string[];
	readonly hookUp: HookUp | null;
	readonly generator: GeneratorRow | null;
	readonly dial: DialRow | null;
	readonly adjusters: readonly string[];
	readonly aim: Aim | null;
	/** The dial is rocked while the adjuster is turned. */
	readonly rock: boolean;
	readonly indicator: Indicator | null;
	readonly questions: readonly StepQuestion[];
	readonly remarks: readonly string[];
	readonly cautions: readonly Caution[];
	/** Ids of the steps to be worked again, in order, after this one until a pass gains less than the meter can tell. */
	readonly repeat: readonly string[];
}

/** An alignment sheet made for one set. */
export interface Sheet {
	readonly title: string;
	readonly steps: readonly SheetStep[];
	readonly cautions: readonly Caution[];
	readonly assumptions: readonly Assumption[];
	/** To be built when the generator's own attenuator is too coarse. */
	readonly pad: SwitchablePad | null;
}

/** What the person has and prefers; it decides which sheet is made. */
export interface SheetOptions {
	readonly generator: 'modulated' | 'unmodulated' | 'none';
	/** Fine attenuator: can the level be set low and in known steps? */
	readonly attenuator: 'fine' | 'coarse';
	/** Low end: dial true at both ends, or rocked for greatest output. */
	readonly lowEndSchool: 'dial true' | 'greatest output';
	readonly meter: 'tone' | 'AVC volts' | 'AC volts';
	/** Generator joined by its leads through the dummy, or near the set without contact. */
	readonly coupling: 'direct' | 'loose';
	readonly words: WordsName;
	readonly units: FrequencyUnits;
}
