import { canSpeak, LevelSound, type SoundKind, speak } from './level-sound.ts';

/** What the person wants to hear and see while working, for all adjusters of a run. */
export class BenchEar {
	sound: SoundKind = $state('silent');
	isSpoken = $state(false);
	isFar = $state(false);
	/** Time constant of the needle, seconds. */
	dampingS = $state(0.15);
	readonly canSpeak = canSpeak;
	#voice: LevelSound | null = null;

	/** Changes the sound; `pitch` and `clicks` begin at once. */
	async choose(sound: SoundKind, toneHz: number): Promise<void> {
		await this.silence();
		this.sound = sound;
		if (sound !== 'silent') this.#voice = new LevelSound(sound, toneHz);
	}

	follow(offDb: number | null): void {
		this.#voice?.follow(offDb);
	}

	say(words: string, change: (isSpeaking: boolean) => void): void {
		if (this.isSpoken) speak(words, change);
	}

	async silence(): Promise<void> {
		const voice = this.#voice;
		this.#voice = null;
		this.sound = 'silent';
		await voice?.close();
	}
}
