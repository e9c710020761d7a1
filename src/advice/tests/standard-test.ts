import type { Estimate } from '#core/numeric/estimate.ts';
import type { TestName, TestReading } from '#record/test-reading.ts';
import type { HookUp } from '../sheet-step.ts';

/** What stands behind a procedure: a text that was read, memory, or custom. Only the first is printed as a source. */
export interface TestSource {
	readonly words: string;
	readonly status: 'seen' | 'from memory' | 'common practice' | 'chosen';
}

/** How one reading is taken, in the terms of generator, dial and meter: what a person does and a simulated hand can do. */
export type AskWork =
	/** Tune the generator for most output near a frequency, set its attenuator for the standard output, read the attenuator. */
	| { readonly kind: 'input at best'; readonly near: 'dial' | 'image' | 'IF' }
	/** As far off the middle of the band, attenuator for the standard output, read the attenuator. */
	| { readonly kind: 'input off tune'; readonly offHz: number }
	/** So many times the input at the best; come in from far on one side until the standard output is there, read the frequency. */
	| { readonly kind: 'edge'; readonly ratio: number; readonly side: -1 | 1 }
	/** So many times the input at the best, read the output; depth 0 leaves the tone off. */
	| { readonly kind: 'output at best'; readonly ratio: number; readonly depth: number }
	/** The AVC test's volume control, an input in volts, read the output. */
	| { readonly kind: 'output at input'; readonly inputV: number }
	/** The AVC test's volume control, lower the input until the output has fallen so far, read the attenuator. */
	| { readonly kind: 'input for fall'; readonly fallDb: number }
	/** Advance the volume until distortion is a share, read the output. */
	| { readonly kind: 'output at distortion'; readonly distortionShare: number }
	/** Standard output, read the distortion. */
	| { readonly kind: 'distortion' }
	/** The AVC test's volume control and 1 mV, another tone; read the output. */
	| { readonly kind: 'output at tone'; readonly toneHz: number }
	/** Generator off, volume control at a place, read the output. */
	| { readonly kind: 'quiet output'; readonly volume: number }
	/** Read the oscillator's frequency. */
	| { readonly kind: 'oscillator' }
	/** Generator to a point of the set, attenuator for the standard output, read it. */
	| {
			readonly kind: 'input at point';
			readonly point: 'converter grid' | 'IF grid' | 'audio grid';
			readonly at: 'dial' | 'IF' | 'tone';
	  };

/** One reading that a procedure asks for. */
export interface Ask {
	readonly id: string;
	readonly test: TestName;
	/** A few words for a table. */
	readonly label: string;
	/** What to do, in the imperative. */
	readonly words: string;
	readonly quantity: TestReading['quantity'];
	readonly dialHz: number;
	readonly work: AskWork;
}

/** One standard test as a procedure. */
export interface StandardTest {
	readonly name: TestName;
	readonly title: string;
	readonly measures: string;
	readonly source: TestSource;
	readonly hookUp: HookUp;
	readonly steps: readonly string[];
	/** Where its uncertainty comes from, in words. */
	readonly budget: readonly string[];
	/** What it cannot do with the gear at hand. */
	readonly cannot: readonly string[];
	readonly asks: readonly Ask[];
}

/** A part of a finding's uncertainty. */
export interface BudgetShare {
	readonly from: string;
	/** One standard deviation: decibels for levels and ratios, else the finding's own unit. */
	readonly size: number;
	/** The same gear has the same fault twice: it falls out of a difference. */
	readonly isSystematic: boolean;
}

/** What a test found. */
export interface Finding {
	readonly id: string;
	readonly test: TestName | 'dial';
	readonly label: string;
	/** Of one that belongs to a place of the dial and is shown along it. */
	readonly dialHz?: number;
	readonly unit: 'V' | 'W' | 'dB' | 'Hz' | 'share';
	/** In its unit, with one standard deviation; `null` where the generator's most did not reach it. */
	readonly value: Estimate | null;
	readonly budget: readonly BudgetShare[];
	/** Which way is better; widths and frequencies are neither. */
	readonly better: 'more' | 'less' | 'neither';
	/** The generator's volts are not known: only differences mean anything. */
	readonly isRelative: boolean;
	readonly remarks: readonly string[];
}
