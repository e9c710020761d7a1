import { drivenTo, type ServiceGenerator, serviceGenerator, serviceSignals } from '#core/receiver/service-generator.ts';
import type { GeneratorPlace, SetSignal } from '#core/receiver/signal.ts';

/** Which generator stands beside a virtual set: one that gives what it is set to, or an old service generator with its drive where hands left it. */
export type GeneratorBeside =
	| { readonly kind: 'good' }
	| {
			readonly kind: 'service';
			readonly seed: number;
			/** When it was switched on, milliseconds since 1970. */
			readonly onSinceMs: number;
			/** Where the play of its drive has left its plates, hertz of the dial. */
			readonly platesHz: number;
	  };

/** Every virtual bench has the same old generator, so that what is found out about it holds in the next run. */
const seed = 1938;
const laws = new Map<number, ServiceGenerator>();

function lawOf(of: number): ServiceGenerator {
	const law = laws.get(of) ?? serviceGenerator(of);
	laws.set(of, law);
	return law;
}

/** An old service generator that was switched on at a time, its dial at a frequency. */
export function oldGenerator(onSinceMs: number, dialHz: number): GeneratorBeside {
	return { kind: 'service', seed, onSinceMs, platesHz: dialHz };
}

/** The generator after its dial was moved. */
export function dialled(generator: GeneratorBeside, dialHz: number): GeneratorBeside {
	if (generator.kind === 'good') return generator;
	return { ...generator, platesHz: drivenTo(lawOf(generator.seed), generator.platesHz, dialHz) };
}

/** What a set gets from its generator, marked with a level, at a moment: its own frequency first, then harmonics. */
export function givenSignals(
	generator: GeneratorBeside,
	place: GeneratorPlace,
	markedV: number,
	isLeadOn: boolean,
	atMs: number,
): readonly [SetSignal, ...SetSignal[]] {
	const marked = { ...place, levelV: isLeadOn ? markedV : 0 };
	if (generator.kind === 'good') return [marked];
	const { onSinceMs, platesHz } = generator;
	const [own, ...harmonics] = serviceSignals(lawOf(generator.seed), {
		place,
		platesHz,
		markedV,
		isLeadOn,
		onForS: (atMs - onSinceMs) / 1e3,
	});
	return [own ?? marked, ...harmonics];
}

/** What a generator gives past its attenuator, volts. */
export function leakOf(generator: GeneratorBeside): number {
	return generator.kind === 'good' ? 0 : lawOf(generator.seed).leakV;
}
