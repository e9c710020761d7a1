import { setTimeout as wait } from 'node:timers/promises';
import type { Done, Generator } from '#instruments/instrument.ts';
import { type GeneratorVerbs, type RangedVerb, sentValue, settingLine } from '#record/instrument-description.ts';
import { voltageWords } from '#record/quantity-words.ts';
import type { ScpiSession } from './scpi-session.ts';

/** The most that a level may rise in one act, decibels. */
const mostRiseDb = 10;
/** A first level up to this one needs no question, volts (chosen: where a sheet's steps begin). */
const firstLevelV = 1e-3;

/** A generator that speaks SCPI. Nothing outside its range is sent; its level rises by steps; it is switched off by whoever is done with it. */
export class ScpiGenerator implements Generator {
	readonly #session: ScpiSession;
	readonly #verbs: GeneratorVerbs;
	readonly #settleMs: number;
	/** The level that a rise counts from. */
	#levelV = firstLevelV;

	constructor(session: ScpiSession, verbs: GeneratorVerbs, settleMs: number) {
		this.#session = session;
		this.#verbs = verbs;
		this.#settleMs = settleMs;
	}

	get name(): string {
		return this.#session.name;
	}

	async setFrequency(frequencyHz: number): Promise<Done> {
		const verb = this.#verbs['set frequency'];
		const done = await this.#set([[verb, frequencyHz, 'frequency']], []);
		return done.kind === 'done' ? { ...done, sent: sentValue(verb, frequencyHz) } : done;
	}

	async setLevel(levelV: number): Promise<Done> {
		const riseDb = 20 * Math.log10(levelV / this.#levelV);
		if (riseDb <= mostRiseDb + 1e-9) return this.raiseLevel(levelV);
		return {
			kind: 'asks',
			words: `${voltageWords(levelV)} is ${riseDb.toFixed(0)} dB more than ${voltageWords(this.#levelV)}, at once: is the lead where it belongs, and is that much wanted?`,
		};
	}

	async raiseLevel(levelV: number): Promise<Done> {
		const verb = this.#verbs['set level'];
		const done = await this.#set([[verb, levelV, 'level']], []);
		if (done.kind !== 'done') return done;
		this.#levelV = sentValue(verb, levelV);
		return { ...done, sent: this.#levelV };
	}

	modulate(toneHz: number, depth: number): Promise<Done> {
		const { 'set tone': tone, 'set modulation depth': depthVerb, 'modulation on': on } = this.#verbs;
		const values: [RangedVerb, number, string][] = [];
		if (tone) values.push([tone, toneHz, 'tone']);
		if (depthVerb) values.push([depthVerb, depth, 'modulation depth']);
		return this.#set(values, on ? [on.send] : []);
	}

	switchOn(): Promise<Done> {
		return this.#set([], [this.#verbs['output on'].send]);
	}

	switchOff(): Promise<Done> {
		return this.#session.tell([this.#verbs['output off'].send]);
	}

	async #set(values: readonly (readonly [RangedVerb, number, string])[], acts: readonly string[]): Promise<Done> {
		const lines: string[] = [];
		for (const [verb, value, what] of values) {
			const line = settingLine(verb, value, what);
			if (!line.ok) return { kind: 'refused', words: line.words };
			lines.push(line.value);
		}
		const done = await this.#session.tell([...lines, ...acts]);
		if (done.kind === 'done' && this.#settleMs > 0) await wait(this.#settleMs);
		return done;
	}
}
