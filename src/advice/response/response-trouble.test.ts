import { expect, test } from 'vitest';
import { handOvers } from '../trouble/hand-over.ts';
import { outcomeOf } from '../trouble/ranking.ts';
import type { ResponseAnswer } from './response-answer.ts';
import { responseAnswers } from './response-trouble.ts';

const plain: ResponseAnswer = {
	peakHz: { value: 455e3, uncertainty: 50 },
	atIfBelowPeakDb: null,
	bandwidths: [],
	slopeDbPerKHzAtIf: null,
	asymmetryDb5kHz: null,
	adjacent: [],
	meterDb: 0.1,
	poles: [],
	chiSquaredPerDegree: 1,
	adjusters: [],
	aims: [],
	findings: [],
	advice: [],
};

test('a curve that circuits make asks for no trouble; one that they do not make, or that AVC flattened, does', () => {
	expect(responseAnswers(plain)).toEqual([]);
	const refused = responseAnswers({
		...plain,
		chiSquaredPerDegree: 6.12,
		findings: [{ kind: 'misfit', words: 'Four tuned circuits do not make this curve.' }],
	});
	expect(refused).toEqual([{ test: 'curve-fit', outcome: 'refused', words: 'chi-squared 6.1 per degree of freedom' }]);
	const flattened = responseAnswers({
		...plain,
		compression: { stepDb: 2.4, of6Db: 2.4 },
		findings: [{ kind: 'signal too strong', words: 'A 6 dB step reads 2.4 dB.' }],
	});
	for (const { test: id, outcome } of [...refused, ...flattened]) expect(outcomeOf(id, outcome).ok).toBe(true);
	expect(handOvers([...refused, ...flattened], 'aligning').map(({ to }) => to)).toEqual([
		{ trouble: 'width' },
		{ trouble: 'avc-masks' },
	]);
});
