import type { Estimate } from '#core/numeric/estimate.ts';
import { measureTone } from '#core/signal/tone.ts';
import { tapSoundCard } from '#instruments/sound-card/sound-tap.ts';

/** Seconds of sound that one beat is told from. */
const windowS = 1;

/** Hears the whistle between a generator and a station, and says once a second how high it is. */
export class BeatEar {
	/** `null` while nothing is heard between 200 and 3,000 c. */
	beatHz: Estimate | null = $state.raw(null);
	isListening = $state(false);
	fault: string | null = $state(null);
	#close: () => Promise<void> = async () => undefined;

	/** Begins to listen. Call it from a click: browsers start sound only then. */
	async listen(): Promise<void> {
		await this.stop();
		this.fault = null;
		let rateHz = 48e3;
		let samples: number[] = [];
		const frame = (more: Float32Array): void => {
			samples.push(...more);
			if (samples.length < windowS * rateHz) return;
			this.beatHz = measureTone(samples, rateHz, null).toneHz;
			samples = [];
		};
		const tap = await tapSoundCard(frame, (words) => {
			void this.stop();
			this.fault = words;
		});
		if (!tap.ok) {
			this.fault = tap.words;
			return;
		}
		rateHz = tap.value.sampleRateHz;
		this.isListening = true;
		this.#close = tap.value.close;
	}

	async stop(): Promise<void> {
		const close = this.#close;
		this.#close = async () => undefined;
		this.isListening = false;
		this.beatHz = null;
		await close();
	}
}
