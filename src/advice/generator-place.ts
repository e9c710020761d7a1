/** What a person's generators are worth, from the checks of their dials, and where a dial has to stand for a frequency. */
import { dialFor, type GeneratorDial, generatorDial, trueFor } from '#core/estimate/generator-dial.ts';
import type { Estimate } from '#core/numeric/estimate.ts';
import type { GeneratorCheck } from '#record/dial-reading.ts';
import { kilocycleWords } from '#record/estimate-words.ts';

/** One check, and when it was made, milliseconds since 1970. */
export interface DatedCheck {
	readonly atMs: number;
	readonly check: GeneratorCheck;
}

/** A generator whose dial was checked. */
export interface KnownGenerator {
	/** Empty for one that was never named. */
	readonly name: string;
	readonly dial: GeneratorDial;
	/** When it was checked last, milliseconds since 1970. */
	readonly checkedAtMs: number;
}

/** Generators by name, the one checked last first. */
export function knownGenerators(checks: readonly DatedCheck[], nowMs: number): readonly KnownGenerator[] {
	const names = [...new Set(checks.map(({ check }) => check.generator ?? ''))];
	return names
		.map((name) => {
			const own = checks.filter(({ check }) => (check.generator ?? '') === name);
			const marks = own.map(({ atMs, check }) => ({
				dialHz: check.readsHz,
				trueHz: check.trueHz,
				uncertaintyHz: check.uncertaintyHz,
				ageS: Math.max(nowMs - atMs, 0) / 1e3,
			}));
			return { name, dial: generatorDial(marks), checkedAtMs: Math.max(...own.map(({ atMs }) => atMs)) };
		})
		.sort((one, other) => other.checkedAtMs - one.checkedAtMs);
}

/** What a reading that was typed from a generator's dial is worth; as it was read for one that was never checked. */
export function truthOf(generator: KnownGenerator | undefined, readHz: number): Estimate {
	return generator ? trueFor(generator.dial, readHz) : { value: readHz, uncertainty: 0 };
}

/** How long ago, in days: "today", "yesterday", "12 days ago". */
export function agoWords(atMs: number, nowMs: number): string {
	const days = Math.max(Math.floor((nowMs - atMs) / 86_400_000), 0);
	return days === 0 ? 'today' : days === 1 ? 'yesterday' : `${days} days ago`;
}

/** A correction that is known no better than this share of the frequency is called a guess (chosen: half of what an unchecked dial is worth). */
const guessShare = 0.005;

/** Where a generator's dial has to stand for a frequency, as a sentence's end. */
export function placeWords({ name, dial, checkedAtMs }: KnownGenerator, wantedHz: number, nowMs: number): string {
	const place = dialFor(dial, wantedHz);
	if (!place) return '';
	const isGuess = (place.uncertainty ?? 0) > guessShare * wantedHz;
	return `${kilocycleWords(place)} on the dial${name === '' ? '' : ` of ${name}`}, checked ${agoWords(checkedAtMs, nowMs)}${isGuess ? '; no check is near: make one' : ''}`;
}
