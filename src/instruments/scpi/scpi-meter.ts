import type { AskedMeter, NotDone } from '#instruments/instrument.ts';
import type { MeterVerbs } from '#record/instrument-description.ts';
import type { LevelReading } from '#record/reading.ts';
import { shownWords } from '#record/shown-words.ts';
import type { ScpiSession } from './scpi-session.ts';

const toDbv = {
	V: (volts: number) => 20 * Math.log10(Math.abs(volts)),
	mV: (millivolts: number) => 20 * Math.log10(Math.abs(millivolts) / 1e3),
	dBV: (decibels: number) => decibels,
} as const;

/** SCPI's numbers for too much, 9.9E37, and for no number at all, 9.91E37 [scpi-1999]. */
const leastOverrange = 9.9e37;
const leastNotANumber = 9.905e37;

/** A meter that speaks SCPI. */
export class ScpiMeter implements AskedMeter {
	readonly #session: ScpiSession;
	readonly #verb: MeterVerbs['read volts'];
	readonly #nowMs: () => number;

	constructor(session: ScpiSession, verbs: MeterVerbs, nowMs: () => number) {
		this.#session = session;
		this.#verb = verbs['read volts'];
		this.#nowMs = nowMs;
	}

	get name(): string {
		return this.#session.name;
	}

	async read(): Promise<LevelReading | NotDone> {
		const { ask, unit, uncertaintyDb, quantity } = this.#verb;
		const askedMs = this.#nowMs();
		const said = await this.#session.ask(ask);
		if (said.kind !== 'said') return said;
		const value = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(said.text) ? Number(said.text) : Number.NaN;
		if (Number.isNaN(value))
			return { kind: 'failed', words: `${this.name}: cannot read a number from "${shownWords(said.text, 60)}"` };
		const common = {
			kind: 'level',
			atMs: (askedMs + this.#nowMs()) / 2,
			instrument: this.name,
			reference: 'dBV',
			quantity,
			words: said.text.slice(0, 60),
		} as const;
		const levelDb = toDbv[unit](value);
		if (value >= leastNotANumber) return { ...common, trust: 'no tone', levelDb: null };
		if (Math.abs(value) >= leastOverrange) return { ...common, trust: 'clipped', levelDb: null };
		if (!Number.isFinite(levelDb)) return { ...common, trust: 'too weak', levelDb: null };
		return { ...common, trust: 'ok', levelDb: { value: levelDb, uncertainty: uncertaintyDb } };
	}
}
