import type { TestAnswer } from '../trouble/ranking.ts';
import type { ResponseAnswer } from './response-answer.ts';

/** What the answer to a curve says to the tests of trouble: what no adjuster makes. */
export function responseAnswers({ findings, compression, chiSquaredPerDegree }: ResponseAnswer): readonly TestAnswer[] {
	const has = (kind: ResponseAnswer['findings'][number]['kind']): boolean => findings.some((one) => one.kind === kind);
	return [
		...(has('misfit')
			? [
					{
						test: 'curve-fit',
						outcome: 'refused',
						words: `chi-squared ${chiSquaredPerDegree?.toFixed(1)} per degree of freedom`,
					} as const,
				]
			: []),
		...(has('feedback') ? [{ test: 'curve-fit', outcome: 'feedback', words: 'found by the nudges' } as const] : []),
		...(has('signal too strong') && compression
			? [{ test: 'six-db', outcome: 'less', words: `6 dB reads ${compression.of6Db.toFixed(1)} dB` } as const]
			: []),
	];
}
