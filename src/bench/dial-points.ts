import { leverOf } from '#advice/dial/dial-acts.ts';
import { type KnownGenerator, truthOf } from '#advice/generator-place.ts';
import type { Lever } from '#core/estimate/dial-model.ts';
import { broughtIn, type DialPoint, type Turned } from '#core/estimate/dial-solve.ts';
import type { DialReading } from '#record/dial-reading.ts';
import type { DialWork, KeptDialAct } from './dial-work.ts';

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

function turnedBy(acts: readonly KeptDialAct[], levers: readonly Lever[]): Turned {
	const turns = (lever: Lever): number => acts.filter(({ act }) => leverOf[act.adjuster] === lever).length;
	return Object.fromEntries(levers.map((lever) => [lever, turns(lever)])) as Turned;
}

/** Readings of a band's dial, each with how often its levers had been turned, and what the acts brought in. */
export function dialPoints(
	{ readings, acts }: DialWork,
	band: string,
	levers: readonly Lever[],
	generators: readonly KnownGenerator[],
): readonly DialPoint[] {
	const ownActs = acts.filter(({ act }) => act.band === band);
	return readings
		.filter(({ reading }) => reading.band === band)
		.flatMap(({ entry, place, reading }) => {
			const before = ownActs.filter((act) => act.place < place);
			const turned = turnedBy(before, levers);
			const now = { dialHz: reading.dialHz, pass: reading.pass, ...heardIn(reading, generators), turned };
			const done = ownActs.find(({ act }) => act.since === entry)?.act;
			return done ? [now, broughtIn(now, levers, leverOf[done.adjuster], done.bringInHz)] : [now];
		});
}
