import type { GeneratorWorth } from '#advice/generator-worth.ts';
import { generatorHz, serviceGenerator } from '#core/receiver/service-generator.ts';
import { standardTone } from '#core/receiver/signal.ts';
import type { GeneratorCheck } from '#record/dial-reading.ts';
import { depthWords } from '#record/estimate-words.ts';
import { frequencyWords, voltageWords } from '#record/quantity-words.ts';

/** One figure of an old generator as a hand found it, beside the truth. */
export interface GeneratorTruthRow {
	readonly words: string;
	/** `null` where it was not looked for. */
	readonly found: string | null;
	readonly truth: string;
}

/** Long after it was switched on. */
const warmS = 86_400;
const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** What a virtual bench's old generator truly is, beside what was found of it; its dial warm, and come to from below. */
export function generatorTruth(
	seed: number,
	checks: readonly GeneratorCheck[],
	worth: GeneratorWorth,
): readonly GeneratorTruthRow[] {
	const generator = serviceGenerator(seed);
	const slop = generator.slopShare;
	const marked = worth.depth?.marked ?? standardTone.depth;
	return [
		...checks.map(({ readsHz, trueHz }) => ({
			words: `its dial at ${frequencyWords(readsHz, 'US')}`,
			found: frequencyWords(trueHz, 'US'),
			truth: frequencyWords(generatorHz(generator, readsHz * (1 - slop / 2), warmS), 'US'),
		})),
		{ words: 'play of its dial at 1,000 kc', found: null, truth: `${(1e3 * slop).toFixed(1)} kc` },
		{
			words: 'it leaks',
			found: worth.leak && voltageWords(worth.leak.leakV.value),
			truth: voltageWords(generator.leakV),
		},
		{
			words: `modulated where it says ${percent(marked)}`,
			found: worth.depth && depthWords(worth.depth),
			truth: percent(Math.min(marked * generator.depthTimes, 1)),
		},
	];
}
