import type { Estimate } from '#core/numeric/estimate.ts';
import type { LiveMeter, MeterListener } from '#instruments/instrument.ts';
import { readRemoteMeter } from '#instruments/remote/remote-meter.ts';
import { calibrated, fullScaleDbv } from '#instruments/sound-card/calibration.ts';
import { readVirtualSet } from '#instruments/virtual/virtual-meter.ts';
import type { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import type { Parsed } from '#record/parsed.ts';
import type { LevelReading } from '#record/reading.ts';
import { hostDesk } from './host-desk.svelte.ts';
import { partMissing } from './part-missing.ts';

/** How levels are read on the bench. */
export type MeterKind = 'virtual set' | 'sound input' | 'driven meter' | 'typed';

const calibrationKey = (input: string): string => `full scale of ${input}`;
/** Pictures of the wave that are averaged: one second. */
const picturesAveraged = 10;

/** After a change of the generator's level the AVC line follows for some tenths of a second (chosen: six times 0.1 s). */
const settlingMs = 600;

/** A level that scatters more is none to go by (chosen: a third of the least fall that is told). */
const mostSpreadDb = 0.1;

function middle(values: readonly number[]): number {
	return [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}

function keptCalibration(input: string): Estimate | null {
	try {
		const kept = JSON.parse(localStorage.getItem(calibrationKey(input)) ?? 'null') as Partial<Estimate> | null;
		return typeof kept?.value === 'number' && Number.isFinite(kept.value)
			? { value: kept.value, uncertainty: typeof kept.uncertainty === 'number' ? kept.uncertainty : null }
			: null;
	} catch {
		return null;
	}
}

/** The meter of a bench: one for all adjusters, open from one to the next. Whoever works an adjuster listens to it. */
export class BenchMeter {
	kind: MeterKind = $state('typed');
	live: LiveMeter | null = $state.raw(null);
	/** Why there is no reading, as a sentence. */
	fault: string | null = $state(null);
	/** The latest reading, shown at once; it counts when the bench has kept it. */
	latest: LevelReading | null = $state.raw(null);
	/** Two cycles of the tone, averaged over a second; `null` where the meter does not see the wave. */
	picture: Float64Array | null = $state.raw(null);
	fullScale: Estimate | null = $state.raw(null);
	/** The program speaks: what a meter hears in the room meanwhile is not trusted. */
	isSpeaking = $state(false);
	/** Until then the level settles: what is read meanwhile belongs neither to the old one nor to the new one. */
	#settledAtMs = Number.NEGATIVE_INFINITY;
	readonly #virtual: VirtualSet | null;
	#take: ((reading: LevelReading) => void) | null = null;
	/** The last choice; an input that opens after another choice was made is closed again. */
	#choice = 0;
	/** The input's last ten levels that could be trusted, decibels of full scale. */
	#recentDb: number[] = [];
	#toneHz: number | null = null;
	/** The kind that was chosen last, also where it could not be had. */
	#wanted: MeterKind = 'typed';

	constructor(virtual: VirtualSet | null) {
		this.#virtual = virtual;
	}

	/** Kinds that this bench can use. */
	get kinds(): readonly MeterKind[] {
		return [
			...(this.#virtual ? (['virtual set'] as const) : []),
			'sound input',
			...(hostDesk.named.meter.place === '' ? [] : (['driven meter'] as const)),
			'typed',
		];
	}

	/** Begins with what needs no hardware where there is such a thing; a step with another tone opens a sound input anew. */
	async begin(toneHz: number): Promise<void> {
		const isOther = this.#toneHz !== null && this.#toneHz !== toneHz;
		if (this.#toneHz === null) await this.choose(this.#virtual ? 'virtual set' : 'typed', toneHz);
		else if (isOther && this.kind === 'sound input') await this.choose(this.kind, toneHz);
	}

	/** Changes the meter; the one before is closed. */
	async choose(kind: MeterKind, toneHz: number): Promise<void> {
		await this.close();
		this.kind = kind;
		this.#toneHz = toneHz;
		this.#wanted = kind;
		const choice = this.#choice;
		const listener: MeterListener = {
			reading: (reading, picture) => this.#heard(reading, picture),
			failure: (words) => {
				void this.close();
				this.kind = 'typed';
				this.fault = words;
			},
		};
		const opened = await this.#open(kind, toneHz, listener);
		if (choice !== this.#choice) {
			if (opened?.ok) await opened.value.close();
			return;
		}
		if (!opened) return;
		if (!opened.ok) {
			listener.failure(opened.words);
			return;
		}
		this.live = opened.value;
		this.fullScale = kind === 'sound input' ? keptCalibration(opened.value.name) : null;
	}

	/** Opens anew what was chosen last. */
	again(): Promise<void> {
		return this.choose(this.#wanted, this.#toneHz as number);
	}

	async #open(kind: MeterKind, toneHz: number, listener: MeterListener): Promise<Parsed<LiveMeter> | null> {
		// Fetched when it is chosen: most look in on the bench with another meter first.
		if (kind === 'sound input') {
			const soundCard = await import('#instruments/sound-card/sound-card-meter.ts').catch(() => null);
			if (!soundCard) return { ok: false, words: partMissing };
			return soundCard.hearSoundCard(toneHz, listener);
		}
		if (kind === 'driven meter')
			return readRemoteMeter(() => hostDesk.instruments.read(hostDesk.named.meter), listener);
		if (kind === 'virtual set' && this.#virtual) return { ok: true, value: readVirtualSet(this.#virtual, listener) };
		return null;
	}

	/** The generator's level was changed just now. */
	settle(nowMs: number): void {
		this.#settledAtMs = nowMs + settlingMs;
	}

	#heard(reading: LevelReading, picture: Float64Array | null): void {
		const isHeld = (this.isSpeaking && this.live?.hearsRoom === true) || reading.atMs < this.#settledAtMs;
		const own = calibrated(isHeld ? { ...reading, trust: 'held' } : reading, this.fullScale);
		this.latest = own;
		if (own.trust === 'ok' && reading.levelDb) this.#recentDb = [...this.#recentDb, reading.levelDb.value].slice(-10);
		const before = this.picture;
		this.picture =
			picture === null || before === null
				? picture
				: before.map((value, place) => value + ((picture[place] as number) - value) / picturesAveraged);
		this.#take?.(own);
	}

	/** Hands each reading on until the answer is called. */
	listen(take: (reading: LevelReading) => void): () => void {
		this.#take = take;
		return () => {
			if (this.#take === take) this.#take = null;
		};
	}

	/** Takes the level that is heard for a known voltage at the input, from now on and on another day; `false` while it does not stand still. */
	calibrate(knownDbv: Estimate): boolean {
		// By medians: a frame or two that a busy machine cut short do not count.
		const value = middle(this.#recentDb);
		const spreadDb = 1.4826 * middle(this.#recentDb.map((levelDb) => Math.abs(levelDb - value)));
		const isSteady = this.#recentDb.length === 10 && this.latest?.trust === 'ok' && spreadDb < mostSpreadDb;
		if (!this.live || !isSteady) return false;
		const read = { value, uncertainty: spreadDb / Math.sqrt(10) };
		this.fullScale = fullScaleDbv(knownDbv, read);
		localStorage.setItem(calibrationKey(this.live.name), JSON.stringify(this.fullScale));
		return true;
	}

	/** Back to decibels of full scale. */
	forgetCalibration(): void {
		this.fullScale = null;
		if (this.live) localStorage.removeItem(calibrationKey(this.live.name));
	}

	async close(): Promise<void> {
		this.#choice++;
		const { live } = this;
		this.live = null;
		this.fault = null;
		this.latest = null;
		this.picture = null;
		this.#recentDb = [];
		await live?.close();
	}
}
