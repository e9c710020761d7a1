import { leverOf } from '#advice/dial/dial-acts.ts';
import { type KnownGenerator, truthOf } from '#advice/generator-place.ts';
import type { Lever } from '#core/estimate/dial-model.ts';
import { broughtIn, type DialPoint, type Turned } from '#core/estimate/dial-solve.ts';
import type { DialReading } from '#record/dial-reading.ts';
import type { Adjuster } from '#record/set-card.ts';
import { type DialWork, turnsOn } from './dial-work.ts';

/** What came in, with what the generator really gave, where it was checked. */
function heardIn(
	reading: DialReading,
	generators: readonly KnownGenerator[],
): Pick<DialPoint, 'heardHz' | 'heardUncertaintyHz'> {
	const { heardHz, heardUncertaintyHz } = reading;
	if (reading.source !== 'generator') return { heardHz, heardUncertaintyHz };
	const own = generators.find(({ name }) => name === (reading.generator ?? ''));
	const { value, uncertainty } = truthOf(own, heardHz);
	return { heardHz: value, heardUncertaintyHz: Math.hypot(heardUncertaintyHz, uncertainty ?? 0) };
}

/** Levers that an adjuster of the oscillator may be. */
function leversBy({ kind, end }: Adjuster): readonly Lever[] {
	return kind === 'padder' || kind === 'slug' || end === 'low' ? ['padderShare', 'coilShare'] : ['trimmerF'];
}

/**
 * Readings of a band's dial, each with how often its levers had been turned, and what the acts brought in.
 * Readings from before the IF was last set are left out: they are of another IF.
 */
export function dialPoints(
	work: DialWork,
	band: string,
	levers: readonly Lever[],
	generators: readonly KnownGenerator[],
): readonly DialPoint[] {
	const ownActs = work.acts.filter(({ act }) => act.band === band);
	const turns = turnsOn(work, band);
	const ifSet = turns.findLast(({ adjuster }) => adjuster.stage === 'IF')?.place ?? -1;
	const moved = [
		...ownActs.map(({ place, act }) => ({ place, levers: [leverOf[act.adjuster]] as readonly Lever[] })),
		...turns
			.filter(({ adjuster }) => adjuster.stage === 'oscillator')
			.map(({ place, adjuster }) => ({ place, levers: leversBy(adjuster) })),
	];
	const turnedBefore = (place: number): Turned =>
		Object.fromEntries(
			levers.map((lever) => [lever, moved.filter((one) => one.place < place && one.levers.includes(lever)).length]),
		) as Turned;
	return work.readings
		.filter(({ reading, place }) => reading.band === band && place > ifSet)
		.flatMap(({ entry, place, reading }) => {
			const turned = turnedBefore(place);
			const now = { dialHz: reading.dialHz, pass: reading.pass, ...heardIn(reading, generators), turned };
			const done = ownActs.find(({ act }) => act.since === entry)?.act;
			return done ? [now, broughtIn(now, levers, leverOf[done.adjuster], done.bringInHz)] : [now];
		});
}
