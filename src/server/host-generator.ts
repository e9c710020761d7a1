import { setTimeout as wait } from 'node:timers/promises';
import type { Done } from '#instruments/instrument.ts';
import { sessionAt } from '#instruments/scpi/driven-gear.ts';
import { ScpiGenerator } from '#instruments/scpi/scpi-generator.ts';
import type { ScpiSession } from '#instruments/scpi/scpi-session.ts';
import { genericInstrument } from '#record/instrument-description.ts';
import type { NamedInstrument } from '#record/named-instrument.ts';
import type { Parsed } from '#record/parsed.ts';
import type { GeneratorSetting, HostState } from '#wire/host-messages.ts';
import { namedPlace } from './named-place.ts';

/** A generator that could not be switched off is told again so often. */
const againMs = 2000;

/** Where it is kept that an output is on, so that a program that was killed is found to have left it so. */
export interface OutputMark {
	markOn(generator: NamedInstrument): Promise<void>;
	seenOff(): Promise<void>;
}

interface OpenGenerator {
	readonly named: string;
	readonly session: ScpiSession;
	readonly generator: ScpiGenerator;
}

/** Sets one generator for a step of the bench, at the person's key. It is switched off by whoever has the watch over the page. */
export class HostGenerator {
	readonly #changed: () => void;
	readonly #mark: OutputMark;
	#open: OpenGenerator | null = null;
	#output: HostState['output'] = 'off';
	/** What it was set to last; `null` while it is off. */
	setting: GeneratorSetting | null = null;

	/** @param changed told whenever its output changes */
	constructor(changed: () => void, mark: OutputMark) {
		this.#changed = changed;
		this.#mark = mark;
	}

	get output(): HostState['output'] {
		return this.#output;
	}

	/** Sets level, tone and frequency and switches the output on; a level that is to rise by more than 10 dB is asked for, and nothing is set before it is agreed. */
	async set(named: NamedInstrument, setting: GeneratorSetting, isAgreed: boolean): Promise<Parsed<Done>> {
		const open = this.#opened(named);
		if (!open.ok) return open;
		const { generator } = open.value;
		const { frequencyHz, levelV, toneHz, depth } = setting;
		const levelled = await (isAgreed ? generator.raiseLevel(levelV) : generator.setLevel(levelV));
		if (levelled.kind === 'asks') return { ok: true, value: levelled };
		if (levelled.kind !== 'done') return { ok: false, words: levelled.words };
		for (const act of [() => generator.modulate(toneHz, depth), () => generator.setFrequency(frequencyHz)]) {
			const done = await act();
			if (done.kind === 'done') continue;
			if (this.#output !== 'off') this.#tell('may be on', this.setting);
			return { ok: false, words: done.words };
		}
		await this.#mark.markOn(named);
		if (this.#open !== open.value) {
			// It was told off meanwhile, and is.
			await this.#mark.seenOff();
			return { ok: false, words: 'its output was to be off before it was set' };
		}
		this.#tell('may be on', setting);
		const on = await generator.switchOn();
		if (on.kind !== 'done') return { ok: false, words: on.words };
		this.#tell('on', setting);
		return { ok: true, value: on };
	}

	/** Sees a generator off that an earlier program left on. */
	async seeOff(named: NamedInstrument, isOver: () => boolean): Promise<void> {
		if (!this.#opened(named).ok) return;
		this.#tell('may be on', null);
		await this.off(isOver);
	}

	/** Switches the output off, and tells it again until it is off, the person has seen to it, or `isOver`. */
	async off(isOver: () => boolean = () => false): Promise<void> {
		while (this.#open && this.#output !== 'off') {
			const done = await this.#open.generator.switchOff();
			if (done.kind === 'done') this.isOff();
			else {
				this.#tell('may be on', this.setting);
				if (isOver()) return;
				await wait(againMs);
			}
		}
		this.#close();
	}

	/** The output is off, by its own word or the person's. */
	isOff(): void {
		if (this.#output !== 'off') void this.#mark.seenOff();
		this.#tell('off', null);
	}

	#tell(output: HostState['output'], setting: GeneratorSetting | null): void {
		this.#output = output;
		this.setting = setting;
		this.#changed();
	}

	#opened(named: NamedInstrument): Parsed<OpenGenerator> {
		const key = JSON.stringify(named);
		if (this.#open?.named === key) return { ok: true, value: this.#open };
		if (this.#output !== 'off') return { ok: false, words: 'another generator is on: switch its output off first' };
		this.#close();
		const place = namedPlace(named);
		if (!place.ok) return place;
		const description = place.value.description ?? genericInstrument;
		if (!description.generator)
			return { ok: false, words: `${description.name}: describes no generator: give a description with "generator"` };
		const session = sessionAt(place.value);
		if (!session.ok) return session;
		const generator = new ScpiGenerator(session.value, description.generator, description.settleMs ?? 0);
		this.#open = { named: key, session: session.value, generator };
		return { ok: true, value: this.#open };
	}

	#close(): void {
		this.#open?.session.close();
		this.#open = null;
	}
}
