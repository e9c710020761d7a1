/** Time that the dial's commands and the page's acts take. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { imageRejection, trimChoices } from '../src/advice/dial/antenna-circuit.ts';
import { dialAnswer } from '../src/advice/dial/dial-answer.ts';
import { dialCertainty } from '../src/advice/dial/dial-certainty.ts';
import { dialSchools } from '../src/advice/dial/dial-schools.ts';
import type { Command } from '../src/cli/command.ts';
import { dialCommand } from '../src/cli/dial-command.ts';
import { findIfCommand } from '../src/cli/find-if-command.ts';
import { readArguments } from '../src/cli/read-arguments.ts';
import { trackCommand } from '../src/cli/track-command.ts';
import { whistlesCommand } from '../src/cli/whistles-command.ts';
import { DialModel } from '../src/core/estimate/dial-model.ts';
import type { DialPoint } from '../src/core/estimate/dial-solve.ts';
import { whistles } from '../src/core/estimate/whistles.ts';
import { createRandom } from '../src/core/numeric/random.ts';
import { band, design, ground, marksHz, peakHz, quantile } from '../test/dial-hand.ts';
import { DisturbedSet, usualDisturbance } from '../test/disturbed-set.ts';
import { atMost, type Figure, worst } from './figures/figure.ts';

/** A command as a person gives it, its answer thrown away. */
function command({ options, run }: Command, line: readonly string[]): () => void {
	return () => {
		const input = readArguments(line, options);
		void run(input, { line: () => undefined, notice: () => undefined });
	};
}

/** Processor time of some work, milliseconds. */
function processorMs(work: () => unknown): number {
	const spans = Array.from({ length: 12 }, () => {
		const before = process.cpuUsage();
		work();
		const { user, system } = process.cpuUsage(before);
		return (user + system) / 1e3;
	}).slice(2);
	return quantile(spans, 0.5);
}

export const timeOfEach: Figure = {
	name: 'dial: time of each command and of each act in the page',
	target: 'below 100 ms each',
	by: 'clock',
	how: 'processor time, median of 10 after 2, the program loaded; a reading kept in the page: answer, what the marks left would add, antenna and schools; the second pass with 15 readings',
	async measure() {
		const folder = mkdtempSync(join(tmpdir(), 'dial-figures-'));
		const [first, second] = [0, 1].map((k) => {
			const set = new DisturbedSet(design, usualDisturbance(createRandom(1 + k)));
			const rows = marksHz.map((dialHz) => `${dialHz / 1e3},${(set.heardHz(dialHz) / 1e3).toFixed(1)}`);
			const path = join(folder, `pass-${k}.csv`);
			writeFileSync(path, ['dial kHz,heard kHz', ...rows].join('\n'));
			return path;
		}) as [string, string];
		const pointsOf = (passes: number): DialPoint[] =>
			Array.from({ length: passes }, (_, pass) => {
				const set = new DisturbedSet(design, usualDisturbance(createRandom(1 + pass)));
				return marksHz.map((dialHz) => ({
					dialHz,
					heardHz: set.heardHz(dialHz),
					heardUncertaintyHz: peakHz,
					pass,
				}));
			}).flat();
		const stationsHz = [640e3, 850e3, 910e3, 1090e3, 1370e3, 1560e3];
		const stations = join(folder, 'stations.csv');
		writeFileSync(stations, ['station kHz', ...stationsHz.map((stationHz) => stationHz / 1e3)].join('\n'));
		const kept = (points: readonly DialPoint[], leftHz: readonly number[]) => () => {
			const given = ground(0.3e-3, {});
			dialCertainty(dialAnswer(given, points), points, leftHz);
			const model = new DialModel(given);
			dialSchools(model, 60, 0.02);
			trimChoices(model, { q: 60, coilShare: 0.02 }, stationsHz);
			imageRejection(model, { q: 60, coilShare: 0.02 }, 1);
			whistles(455e3, band, 'above', stationsHz, stationsHz);
		};
		const usual = ['--if', '455kc', '--band', '540kc-1600kc', '--json'];
		const acts: Readonly<Record<string, () => void>> = {
			dial: command(dialCommand, [first, ...usual]),
			'dial, two passes': command(dialCommand, [first, second, ...usual]),
			'dial, no adjuster at the low end': command(dialCommand, [first, ...usual, '--low-end', 'none']),
			'find-if': command(findIfCommand, [
				'--image-pair',
				'1000kc,1910kc',
				'--year',
				'1938',
				'--country',
				'US',
				'--json',
			]),
			whistles: command(whistlesCommand, [...usual, '--stations', stations]),
			'track --best kilocycles': command(trackCommand, [...usual, '--best', 'kilocycles']),
			'track --best loss': command(trackCommand, [...usual, '--best', 'loss', '--q', '60']),
			'a reading kept': kept(pointsOf(1).slice(0, 5), marksHz.slice(5)),
			'a reading kept, second pass': kept([...pointsOf(2), ...pointsOf(1).slice(0, 1)], marksHz.slice(5)),
		};
		const spans = Object.entries(acts).map(([name, work]) => ({ name, spanMs: processorMs(work) }));
		return {
			reached: spans.map(({ name, spanMs }) => `${name} ${spanMs.toFixed(spanMs < 10 ? 1 : 0)} ms`).join(', '),
			used: worst(...spans.map(({ spanMs }) => atMost(spanMs, 100))),
		};
	},
};
