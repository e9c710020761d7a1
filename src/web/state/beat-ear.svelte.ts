import { steadyWhistle, type Whistle } from '#core/signal/whistle.ts';
import { tapSoundCard } from '#instruments/sound-card/sound-tap.ts';
import type { VirtualSet } from '#instruments/virtual/virtual-set.ts';
import { tapRateHz, tapVirtualSet } from '#instruments/virtual/virtual-tap.ts';

/** Seconds of sound that a whistle is told from; it is told anew every half of them. */
const windowS = 2;
/** A whistle that a programme covers is remembered for so long (chosen: a spell of talk). */
const rememberedMs = 8000;
/** Whistles further apart than this are of two places of the dial: more than one drifts in a second (chosen). */
const otherHz = 30;
/** Share of full scale above which a sound is bent, and its level not in proportion (chosen: an input clips at the whole of it). */
const bentShare = 0.9;
/** Share of what a virtual set's output tube gives at most, that counts as full scale: above it a tone is flattened by more than a tenth of a decibel. */
const straightShare = 0.25;

/** A whistle, and where the generator's dial stood then, hertz; `null` when that was not said. */
interface Heard {
	readonly whistle: Whistle;
	readonly dialHz: number | null;
}

/** Hears the whistle between a generator and a station, and says every second how high and how loud it is. */
export class BeatEar {
	/** The latest steady one; `null` while none was heard between 200 and 3,000 c for some seconds. */
	whistle: Whistle | null = $state.raw(null);
	/** The steady one before it, of another pitch or another place of the dial. */
	before: Heard | null = $state.raw(null);
	/** Where the generator's dial stands, for what is heard next. */
	dialHz: number | null = null;
	/** Not yet listened to for as long as it takes since something was changed. */
	isFilling = $state(true);
	/** It was heard a while ago, and something covers it now. */
	isCovered = $state(false);
	/** The sound is so strong that its level is not in proportion. */
	isBent = $state(false);
	isListening = $state(false);
	fault: string | null = $state(null);
	#heardAtMs = 0;
	#last: Heard | null = null;
	#samples: number[] = [];
	#fresh = 0;
	#close: () => void | Promise<void> = () => undefined;
	/** The last choice; an input that opens after it was stopped is closed again. */
	#choice = 0;

	/** Begins to listen, to a virtual set where there is one, else to the sound input. Call it from a click: browsers start sound only then. */
	async listen(virtual: VirtualSet | null): Promise<void> {
		await this.stop();
		this.fault = null;
		if (virtual) {
			const fullScaleV = straightShare * virtual.design.audio.mostV;
			const stopTap = tapVirtualSet(virtual, (volts) =>
				this.#hear(
					volts.map((one) => one / fullScaleV),
					tapRateHz,
				),
			);
			const stopFollowing = virtual.onChange(() => this.forget());
			this.isListening = true;
			this.#close = () => {
				stopTap();
				stopFollowing();
			};
			return;
		}
		const choice = this.#choice;
		let rateHz = 0;
		const tap = await tapSoundCard(
			(frame) => this.#hear(frame, rateHz),
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
			this.fault = tap.words;
			return;
		}
		rateHz = tap.value.sampleRateHz;
		this.isListening = true;
		this.#close = tap.value.close;
	}

	#hear(frame: ArrayLike<number>, frameRateHz: number): void {
		if (frameRateHz === 0) return;
		// Whistles lie far below half the rate: two samples are made one.
		const rateHz = frameRateHz / 2;
		const size = windowS * rateHz;
		const pairs = Array.from({ length: frame.length >> 1 }, (_, k) => {
			return ((frame[2 * k] as number) + (frame[2 * k + 1] as number)) / 2;
		});
		this.#samples = [...this.#samples, ...pairs].slice(-size);
		this.#fresh += pairs.length;
		if (this.#samples.length < size || this.#fresh < size / 2) return;
		this.#fresh = 0;
		this.isFilling = false;
		this.isBent = this.#samples.some((sample) => Math.abs(sample) > bentShare);
		const whistle = steadyWhistle(this.#samples, rateHz);
		this.isCovered = whistle === null;
		if (whistle !== null) {
			this.#heardAtMs = Date.now();
			this.whistle = whistle;
			const last = this.#last;
			const isOther = last && Math.abs(last.whistle.beatHz.value - whistle.beatHz.value) > otherHz;
			if (last && (isOther || last.dialHz !== this.dialHz)) this.before = last;
			this.#last = { whistle, dialHz: this.dialHz };
		} else if (Date.now() - this.#heardAtMs > rememberedMs) this.whistle = null;
	}

	/** Lets go of what was heard: something was changed. */
	forget(): void {
		this.#samples = [];
		this.whistle = null;
		this.isBent = false;
		this.isFilling = true;
	}

	/** Forgets what came before as well: another station is beaten with, or the tone was no whistle. */
	beginAnew(): void {
		this.#last = null;
		this.before = null;
		this.forget();
	}

	async stop(): Promise<void> {
		this.#choice++;
		const close = this.#close;
		this.#close = () => undefined;
		this.isListening = false;
		this.beginAnew();
		await close();
	}
}
