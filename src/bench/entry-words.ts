/** Entries of a run as a person reads them. */
import { testValueWords } from '#advice/tests/figure-words.ts';
import { type TestId, tests } from '#advice/trouble/tests.ts';
import { isTroubleId, troubles } from '#advice/trouble/troubles.ts';
import type { Language } from '#record/language.ts';
import { decimalWords, voltageWords } from '#record/quantity-words.ts';
import type { LevelReading } from '#record/reading.ts';
import type { RunEntry } from '#record/run.ts';
import type { EntryNames } from './entry-names.ts';

type Happened<Kind extends RunEntry['what']['kind']> = Extract<RunEntry['what'], { kind: Kind }>;

/** A reading as it was typed, or its decibels; why there are none. */
const readingWords = ({ words, levelDb, trust }: LevelReading, decimals: number, { term }: Language): string =>
	words ?? (levelDb === null ? term(trust) : `${decimalWords(levelDb.value, decimals)} dB`);

function gateWords({ gate, answers }: Happened<'gate passed'>, names: EntryNames): string {
	const said = Object.entries(answers).map(([id, answer]) => {
		const asks = names.gateAsks(gate, id);
		return answer === 'yes' ? asks : `${asks}: ${answer}.`;
	});
	return `${names.gate(gate)}: ${said.join(' ')}`;
}

function stepDoneWords(
	{ step, answers = {}, skipped }: Happened<'step done'>,
	names: EntryNames,
	language: Language,
): string {
	const { say, term } = language;
	const title = names.step(step);
	if (skipped !== undefined) return say`left out: ${title}; ${skipped}`;
	const said = Object.entries(answers).flatMap(([id, answer]) => {
		const asked = names.question(id);
		const given = answer === 'yes' || answer === 'no' ? term(answer) : answer.trim();
		return given === '' ? [] : `${asked}${asked.endsWith('?') ? '' : ':'} ${given}.`;
	});
	return said.length === 0
		? say`done: ${title}`
		: `${say`done: ${title}`}${title.endsWith('?') ? '' : '.'} ${said.join(' ')}`;
}

function sweepWords({ role, adjuster }: Happened<'sweep begun'>, names: EntryNames, { say }: Language): string {
	const name = adjuster === undefined ? '' : names.adjuster(adjuster);
	switch (role) {
		case 'base':
			return say`sweep begun as it stands`;
		case 'nudge':
			return say`sweep begun after a nudge of ${name}`;
		case 'second level':
			return say`sweep begun at another level`;
		case 'setting':
			return say`sweep begun after setting ${name}`;
		case 'proof':
			return say`sweep begun as proof`;
	}
}

function stepReadWords({ stepDb, verdict, byLaw }: Happened<'6 dB step'>, { say, term }: Language): string {
	const read = say`a 6 dB step reads ${decimalWords(stepDb.value, 1)} dB: ${term(verdict)}`;
	return byLaw
		? `${read}; ${say`${decimalWords(byLaw.inputDb.value, 1)} dB at the input, the AVC law: ${term(byLaw.verdict)}`}`
		: read;
}

/** A test of trouble and what it came to, in the words of the knowledge base; a short name of another version stays as it is. */
function troubleWords({ trouble, test, outcome, words }: Happened<'test answered'>, { term }: Language): string {
	const known = Object.hasOwn(tests, test) ? tests[test as TestId] : null;
	const came = known?.outcomes.find(({ id }) => id === outcome)?.words ?? outcome;
	const about = isTroubleId(trouble) ? troubles[trouble].words : trouble;
	return `${term(about)}: ${term(known?.words ?? test)} ${term(came)}${words === undefined ? '' : ` (${words})`}`;
}

/**
 * One entry as a line of the record.
 * @param names of the run that it is of
 */
export function entryWords({ what }: Pick<RunEntry, 'what'>, names: EntryNames, language: Language): string {
	const { say, term, frequency } = language;
	switch (what.kind) {
		case 'started':
			return say`run begun`;
		case 'level': {
			const at = what.adjuster === undefined ? names.step(what.step) : names.adjuster(what.adjuster);
			return `${at}: ${readingWords(what.reading, 1, language)}`;
		}
		case 'adjusted':
			return what.eighths === null
				? say`${names.adjuster(what.adjuster)} turned by an amount not counted`
				: say`${names.adjuster(what.adjuster)} turned ${decimalWords(what.eighths, 0)}/8`;
		case 'gate passed':
			return gateWords(what, names);
		case 'step begun':
			return say`begun, pass ${what.pass}: ${names.step(what.step)}`;
		case 'step done':
			return stepDoneWords(what, names, language);
		case 'generator level':
			return what.levelV === undefined
				? say`generator level changed`
				: say`generator level ${voltageWords(what.levelV)}`;
		case 'hand measured':
			return say`${names.adjuster(what.adjuster)}: the hand moves the level by ${decimalWords(what.stepDb.value, 1)} dB`;
		case '6 dB step':
			return stepReadWords(what, language);
		case 'AVC law begun':
			return say`AVC law begun at ${what.point}, generator ${what.generator}`;
		case 'AVC step':
			return say`AVC law, ${voltageWords(what.levelV)}: ${readingWords(what.reading, 2, language)}`;
		case 'AVC law ended':
			return say`AVC law holds no more: ${what.why}`;
		case 'test answered':
			return troubleWords(what, language);
		case 'heard': {
			const { kind, levelDbfs, clicksPerMinute } = what.heard;
			const sound = say`${term(kind)}, ${decimalWords(levelDbfs, 0)} dBFS, ${clicksPerMinute.toFixed(0)} clicks a minute`;
			return what.generator === 'down'
				? say`heard with the generator down: ${sound}`
				: say`heard with the generator on a bare carrier: ${sound}`;
		}
		case 'repeat left':
			return say`no further pass after ${names.step(what.step)}`;
		case 'reproduced':
			return say`the last reading after the pause: ${term(what.verdict)}`;
		case 'sweep begun':
			return sweepWords(what, names, language);
		case 'sweep named':
			return say`sweep named: ${what.name}`;
		case 'sweep point':
			return `${frequency(what.frequencyHz)}: ${readingWords(what.reading, 1, language)}`;
		case 'sweep file':
			return say`${what.points.length} points from ${what.file}`;
		case 'test gear':
			return say`tests ${term(what.moment)}: ${what.generator}, ${what.meter}`;
		case 'test reading':
			return say`tests ${term(what.moment)}, ${term(what.ask)}: ${what.words ?? testValueWords(what, language)}`;
		case 'swept reading':
			return `${term(what.sweep)}, ${frequency(what.frequencyHz)}: ${readingWords(what.reading, 2, language)}`;
		case 'dial reading':
			return say`dial at ${frequency(what.dialHz)}: ${what.words ?? frequency(what.heardHz)} comes in`;
		case 'generator check':
			return say`generator: ${what.words}`;
		case 'generator trial':
			return `${say`generator, ${term(what.read.about)}`}${what.words === undefined ? '' : `: ${what.words}`}`;
		case 'dial gear':
			return say`pointer read to ${(what.readingM * 1e3).toFixed(2)} mm on ${(what.travelM * 1e3).toFixed(0)} mm of scale`;
		case 'dial act':
			return say`${term(what.adjuster)}: ${frequency(what.bringInHz)} brought in at ${frequency(what.sitAtDialHz)}`;
		case 'note':
			return what.text;
		case 'struck':
			return say`a reading struck: ${what.why}`;
		case 'resumed':
			return say`run taken up again`;
		case 'ended':
			return what.how === 'done' ? say`run ended` : say`run left`;
	}
}
