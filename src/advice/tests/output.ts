import { audioAsk, tonesHz } from './asks.ts';
import { digitShare, levelFinding, plainFinding, type ReadingBook, usualLoadOhm, withinLimit } from './finding.ts';
import { ratioDb } from './marked-inputs.ts';
import type { BudgetShare, Finding } from './standard-test.ts';

/** What was found of the output: most before distortion, distortion at the standard output, hum. */
export function outputFindings(book: ReadingBook): readonly Finding[] {
	const findings: Finding[] = [];
	const { say } = book.language;
	const { loadOhm, meterLimitDb } = book.gear;
	const meter: BudgetShare = { from: say`output meter`, size: withinLimit(meterLimitDb), isSystematic: true };
	const distorted = book.valueOf('output distorted');
	if (distorted) {
		const remarks = loadOhm === undefined ? [say`the load is not known: ${usualLoadOhm} ohms are assumed`] : [];
		const budget = [meter, digitShare(distorted, say`last digit`), book.againShare];
		findings.push(
			levelFinding(
				{
					id: 'output',
					test: 'output',
					label: say`Output at 10 % distortion`,
					unit: 'W',
					better: 'more',
					budget,
					isRelative: loadOhm === undefined,
					remarks,
				},
				distorted.value ** 2 / (loadOhm ?? usualLoadOhm),
			),
		);
	}
	const distortion = book.valueOf('distortion');
	if (distortion) {
		// A tenth of what the meter shows (chosen: service meters of distortion say 5 to 10 % of reading).
		const budget: BudgetShare[] = [
			{ from: say`distortion meter`, size: 0.1 * distortion.value, isSystematic: true },
			{ from: say`last digit`, size: distortion.uncertainty, isSystematic: false },
		];
		findings.push(
			plainFinding(
				{
					id: 'distortion',
					test: 'distortion',
					label: say`Distortion at the standard output`,
					unit: 'share',
					better: 'less',
					budget,
				},
				distortion.value,
			),
		);
	}
	const standard = book.valueOf(audioAsk(tonesHz[0]));
	for (const toneHz of tonesHz.slice(1)) {
		const reading = book.valueOf(audioAsk(toneHz));
		if (!standard || !reading) continue;
		findings.push(
			plainFinding(
				{
					id: audioAsk(toneHz),
					test: 'audio response',
					label: say`Audio at ${toneHz} c against ${tonesHz[0]} c`,
					unit: 'dB',
					better: 'neither',
					budget: [
						{ ...meter, from: say`output meter over this range` },
						digitShare(reading, say`last digit`),
						digitShare(standard, say`last digit at the standard tone`),
						book.againShare,
					],
				},
				ratioDb(reading.value / standard.value),
			),
		);
	}
	for (const label of ['full up', 'down'] as const) {
		const hum = book.valueOf(`hum ${label}`);
		if (!hum || hum.value <= 0) continue;
		findings.push(
			plainFinding(
				{
					id: `hum ${label}`,
					test: 'hum',
					label: label === 'down' ? say`Hum and noise, volume down` : say`Hum and noise, volume full up`,
					unit: 'dB',
					better: 'more',
					budget: [meter, digitShare(hum, say`last digit`), book.againShare],
				},
				ratioDb(book.standardV / hum.value),
			),
		);
	}
	return findings;
}
