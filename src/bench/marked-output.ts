import type { Generator } from '#instruments/instrument.ts';

/** Where it is kept that an output may be on, so that a program that was killed is found to have left it so. */
interface OwnMark {
	markOn(): Promise<void>;
	seenOff(): Promise<void>;
}

/** A generator that is marked before its output is switched on, and no longer once it has said that it is off. */
export function markedOutput(generator: Generator, mark: OwnMark): Generator {
	return {
		name: generator.name,
		setFrequency: (frequencyHz) => generator.setFrequency(frequencyHz),
		setLevel: (levelV) => generator.setLevel(levelV),
		raiseLevel: (levelV) => generator.raiseLevel(levelV),
		modulate: (toneHz, depth) => generator.modulate(toneHz, depth),
		async switchOn() {
			await mark.markOn();
			return generator.switchOn();
		},
		async switchOff() {
			const done = await generator.switchOff();
			if (done.kind === 'done') await mark.seenOff();
			return done;
		},
	};
}
