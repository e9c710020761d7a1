import type { SetSignal } from '#core/receiver/signal.ts';
import type { Heard } from '#core/signal/listener.ts';
import { tapSoundCard } from '#instruments/sound-card/sound-tap.ts';
import type { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import type { HeardSound } from '#record/heard.ts';
import type { FromEar, ToEar } from './ear-worker.ts';
import EarWorker from './ear-worker.ts?worker';

/** What a simulated set is given while it is listened to. */
export type EarSignal = HeardSound['generator'] | 'as it stands';

/** A simulated set's own sound is made at this rate, hertz; three times real time on a slow machine. */
const virtualRateHz = 24_000;
const secondMs = 1000;
/** Seconds of a simulated set's sound that are made at once, so that the first word comes soon. */
const firstSeconds = 3;
/** A carrier that any strip lets through, volts at the converter's grid. */
const carrierV = 1e-3;

function signalOf(set: VirtualSet, wanted: EarSignal): SetSignal {
	const { signal } = set;
	if (wanted === 'down') return { ...set.generatorDown, frequencyHz: set.design.ifHz, into: 'converter grid' };
	if (wanted === 'as it stands') return signal;
	return { ...signal, frequencyHz: set.design.ifHz, levelV: carrierV, depth: 0, into: 'converter grid' };
}

/** Listens to a set for what it gives out by itself, as long as it is wanted, and says every second what it hears. */
export class LiveEar {
	latest: FromEar | null = $state.raw(null);
	isListening = $state(false);
	fault: string | null = $state(null);
	#stop: () => void | Promise<void> = () => undefined;
	/** The last choice; an input that opens after it was stopped is closed again. */
	#choice = 0;

	get heard(): Heard | null {
		return this.latest?.heard ?? null;
	}

	#worker(sampleRateHz: number, toneHz: number): { readonly worker: Worker; readonly tell: (to: ToEar) => void } {
		const worker = new EarWorker();
		worker.addEventListener('message', ({ data }: MessageEvent<FromEar>) => {
			this.latest = data;
		});
		worker.addEventListener('error', ({ message }) => {
			void this.stop();
			this.fault = `What is heard could not be judged: ${message}`;
		});
		const tell = (to: ToEar): void => worker.postMessage(to);
		tell({ kind: 'begin', sampleRateHz, toneHz });
		return { worker, tell };
	}

	/** Begins to listen to a simulated set. */
	async hearSet(set: VirtualSet, given: EarSignal, toneHz: number): Promise<void> {
		await this.#begin();
		const { worker, tell } = this.#worker(virtualRateHz, toneHz);
		const second = (): void => tell({ kind: 'set', values: set.values, signal: signalOf(set, given) });
		for (let k = 0; k < firstSeconds; k++) second();
		const every = setInterval(second, secondMs);
		this.#stop = () => {
			clearInterval(every);
			worker.terminate();
		};
	}

	/** Begins to listen to the room. Call it from a click: browsers start sound only then. */
	async hearRoom(toneHz: number): Promise<void> {
		await this.#begin();
		const choice = this.#choice;
		let tell: (to: ToEar) => void = () => undefined;
		try {
			const tap = await tapSoundCard(
				(samples) => tell({ kind: 'frame', samples }),
				(words) => {
					void this.stop();
					this.fault = words;
				},
			);
			if (choice !== this.#choice) {
				if (tap.ok) await tap.value.close();
				return;
			}
			if (!tap.ok) {
				this.isListening = false;
				this.fault = tap.words;
				return;
			}
			const ear = this.#worker(tap.value.sampleRateHz, toneHz);
			tell = ear.tell;
			this.#stop = async () => {
				ear.worker.terminate();
				await tap.value.close();
			};
		} catch (error) {
			if (choice !== this.#choice) return;
			this.isListening = false;
			this.fault = `The sound input cannot be heard: ${(error as Error).message}`;
		}
	}

	async #begin(): Promise<void> {
		await this.stop();
		this.latest = null;
		this.fault = null;
		this.isListening = true;
	}

	/** Ends listening and lets go of what was heard. */
	async forget(): Promise<void> {
		await this.stop();
		this.latest = null;
	}

	/** Ends listening; what was heard last stays. */
	async stop(): Promise<void> {
		this.#choice++;
		const stop = this.#stop;
		this.#stop = () => undefined;
		this.isListening = false;
		await stop();
	}
}
