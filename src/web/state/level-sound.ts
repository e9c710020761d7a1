import { clickHz, clicksPerS, pitchHz } from '#advice/coach/ear.ts';

/** How the level is heard. */
export type SoundKind = 'silent' | 'pitch' | 'clicks';

const loudness = 0.15;
const clickS = 0.025;
/** A click's rise and fall: a cosine's, so that it keeps to its own frequency. */
const clickShape = Float32Array.from({ length: 64 }, (_, index) => {
	return loudness * (0.5 - 0.5 * Math.cos((2 * Math.PI * index) / 63));
});

/** Sounds that follow the level while an adjuster is turned. Start it from a click: browsers sound only then. */
export class LevelSound {
	readonly #context = new AudioContext();
	readonly #kind: Exclude<SoundKind, 'silent'>;
	readonly #toneHz: number;
	#offDb: number | null = null;
	#voice: { readonly pitch: AudioParam; readonly gain: AudioParam } | null = null;
	#timer: ReturnType<typeof setTimeout> | undefined;

	constructor(kind: Exclude<SoundKind, 'silent'>, toneHz: number) {
		this.#kind = kind;
		this.#toneHz = toneHz;
		void this.#context.resume();
		if (kind === 'clicks') this.#click();
		else {
			const oscillator = this.#context.createOscillator();
			const gain = this.#context.createGain();
			gain.gain.value = 0;
			oscillator.connect(gain).connect(this.#context.destination);
			oscillator.start();
			this.#voice = { pitch: oscillator.frequency, gain: gain.gain };
		}
	}

	/** The level now, decibels off the best; `null` is silence. */
	follow(offDb: number | null): void {
		this.#offDb = offDb;
		if (!this.#voice) return;
		const { currentTime } = this.#context;
		if (offDb !== null) this.#voice.pitch.setTargetAtTime(pitchHz(offDb), currentTime, 0.03);
		this.#voice.gain.setTargetAtTime(offDb === null ? 0 : loudness, currentTime, 0.03);
	}

	#click(): void {
		const offDb = this.#offDb;
		if (offDb !== null) {
			const oscillator = this.#context.createOscillator();
			const gain = this.#context.createGain();
			const startS = this.#context.currentTime + 0.01;
			oscillator.frequency.value = clickHz(this.#toneHz);
			gain.gain.value = 0;
			gain.gain.setValueCurveAtTime(clickShape, startS, clickS);
			oscillator.connect(gain).connect(this.#context.destination);
			oscillator.start(startS);
			oscillator.stop(startS + clickS);
		}
		this.#timer = setTimeout(() => this.#click(), 1000 / clicksPerS(offDb ?? Number.POSITIVE_INFINITY));
	}

	get kind(): SoundKind {
		return this.#kind;
	}

	async close(): Promise<void> {
		clearTimeout(this.#timer);
		await this.#context.close();
	}
}

/** Whether this browser can speak. */
export const canSpeak = 'speechSynthesis' in globalThis;

/** Speaks a few words, in place of any that are still being spoken; `change` is told when speech begins and ends. */
export function speak(words: string, change: (isSpeaking: boolean) => void): void {
	if (!canSpeak) return;
	speechSynthesis.cancel();
	const utterance = new SpeechSynthesisUtterance(words);
	utterance.lang = 'en';
	utterance.onstart = () => change(true);
	utterance.onend = () => change(false);
	utterance.onerror = () => change(false);
	speechSynthesis.speak(utterance);
}
