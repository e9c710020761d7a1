import type { CauseId } from '../src/advice/trouble/causes.ts';
import { causes } from '../src/advice/trouble/causes.ts';
import { type Finding, findingOf } from '../src/advice/trouble/finding.ts';
import type { TestAnswer } from '../src/advice/trouble/ranking.ts';
import type { TestId } from '../src/advice/trouble/tests.ts';
import type { TroubleId } from '../src/advice/trouble/troubles.ts';
import { createRandom } from '../src/core/numeric/random.ts';
import { tm517 } from '../src/core/receiver/designs/tm-517.ts';
import type { Fault } from '../src/core/receiver/faults.ts';
import { tamperedSet } from '../src/core/receiver/truth.ts';
import { workDialGuided } from '../src/rehearsal/guided-hand.ts';
import { SimulatedBench } from '../src/rehearsal/simulated-bench.ts';
import { TroubleHand } from '../src/rehearsal/trouble-hand.ts';
import { workUsually } from '../src/rehearsal/usual-hand.ts';
import { exampleCard, factsOf, sheetOf } from '../test/example-set.ts';

interface Sickness {
	readonly name: string;
	/** Of a size from slight, 0, to bad, 1; on a winding from 0 to 3. */
	fault(size: number, winding: number): Fault;
	/** Causes that stand for it. */
	readonly causes: readonly CauseId[];
	/** Tests that cure it, any one of which the seed may choose. */
	readonly cures?: readonly TestId[];
}

const between = (low: number, high: number, size: number): number => low + (high - low) * size;
const feedback: readonly CauseId[] = ['shield-missing', 'bypass-open', 'leads-near'];

/** Twenty-three kinds; sizes chosen from what a person would just notice to what stops the work. */
const sicknesses: readonly Sickness[] = [
	{
		name: 'mica low',
		fault: (s, winding) => ({ kind: 'mica shifted', winding, farad: -between(36e-12, 48e-12, s) }),
		causes: ['mica-low'],
	},
	{
		name: 'mica high',
		fault: (s, winding) => ({ kind: 'mica shifted', winding, farad: between(32e-12, 50e-12, s) }),
		causes: ['mica-high'],
	},
	{
		name: 'mica open',
		fault: (_, winding) => ({ kind: 'mica shifted', winding, farad: -60e-12 }),
		causes: ['mica-open', 'mica-low'],
	},
	{
		name: 'trimmer shorted',
		fault: (s, winding) => ({ kind: 'winding damped', winding, ohm: between(500, 50, s) }),
		causes: ['trimmer-shorted'],
	},
	{
		name: 'winding damped',
		fault: (s, winding) => ({ kind: 'winding damped', winding, ohm: between(80e3, 25e3, s) }),
		causes: ['winding-damped'],
	},
	{
		name: 'coils too near',
		fault: (s, winding) => ({ kind: 'coupling changed', transformer: winding < 2 ? 0 : 1, times: between(3.5, 5, s) }),
		causes: ['coupling-changed', 'over-coupled'],
	},
	{
		name: 'antenna coil damped',
		fault: (s) => ({ kind: 'antenna coil damped', times: between(3, 6, s) }),
		causes: ['antenna-coil-damped'],
	},
	{ name: 'antenna winding open', fault: () => ({ kind: 'antenna winding open' }), causes: ['antenna-coil-open'] },
	{
		name: 'antenna strays',
		fault: (s) => ({ kind: 'antenna capacitance off', farad: between(18e-12, 35e-12, s) }),
		causes: ['antenna-strays'],
	},
	{
		name: 'wave trap off',
		fault: (s) => ({ kind: 'wave trap off', farad: -between(500e-12, 530e-12, s) }),
		causes: ['trap-off'],
	},
	{
		name: 'weak converter',
		fault: (s) => ({ kind: 'weak converter', share: between(0.4, 0.25, s) }),
		causes: ['weak-converter'],
		cures: ['converter-swap'],
	},
	{
		name: 'weak IF tube',
		fault: (s) => ({ kind: 'weak IF tube', share: between(0.4, 0.25, s) }),
		causes: ['weak-if-tube'],
		cures: ['if-tube-swap'],
	},
	{ name: 'weak audio', fault: (s) => ({ kind: 'weak audio', share: between(0.3, 0.15, s) }), causes: ['weak-output'] },
	{ name: 'low B-plus', fault: (s) => ({ kind: 'low B-plus', share: between(0.7, 0.5, s) }), causes: ['low-b-plus'] },
	{
		name: 'padder changed',
		fault: (s) => ({ kind: 'padder off', farad: between(-150e-12, -180e-12, s) }),
		causes: ['padder-changed'],
	},
	{
		name: 'oscillator coil',
		fault: (s) => ({ kind: 'oscillator coil off', share: between(1.13, 1.18, s) }),
		causes: ['osc-coil-changed'],
	},
	{
		name: 'oscillator strays',
		fault: (s) => ({ kind: 'oscillator capacitance off', farad: between(12e-12, 20e-12, s) }),
		causes: ['osc-strays'],
	},
	{
		name: 'oscillator stops',
		fault: (s) => ({ kind: 'oscillator stops', belowHz: between(1.15e6, 1.4e6, s) }),
		causes: ['osc-tube-weak'],
		cures: ['converter-swap'],
	},
	{ name: 'AVC leak', fault: (s) => ({ kind: 'AVC leak', ohm: between(700e3, 50e3, s) }), causes: ['avc-leak'] },
	{ name: 'feedback', fault: (s) => ({ kind: 'feedback', farad: between(0.014e-12, 0.02e-12, s) }), causes: feedback },
	{
		name: 'silver mica',
		fault: (s, winding) => ({ kind: 'crackle', winding, farad: between(0.4e-12, 1e-12, s), perS: between(5, 40, s) }),
		causes: ['silver-mica'],
	},
	{
		name: 'hum',
		fault: (s) => ({ kind: 'hum', frequencyHz: 120, levelV: between(0.08, 0.3, s) }),
		causes: ['filter-capacitor'],
	},
	{
		name: 'motorboating',
		fault: (s) => ({ kind: 'motorboating', frequencyHz: between(2, 7, s), levelV: between(0.6, 1.5, s) }),
		causes: ['motorboating'],
		cures: [],
	},
];

/** How many kinds there are. */
export const kinds = sicknesses.length;

/** How one set was diagnosed. */
export interface Diagnosis {
	readonly name: string;
	readonly symptom: TroubleId;
	/** Place of the right cause, 0 the first; for a healthy set the place of a cause that leaves parts alone. */
	readonly place: number;
	readonly first: CauseId;
	readonly readings: number;
	readonly isSettled: boolean;
	readonly answers: readonly TestAnswer[];
}

const mostTests = 12;
/** Findings that are brought in on the dial's own screen. */
const dialIsOpen: ReadonlySet<CauseId | undefined> = new Set<CauseId>(['osc-trimmer-off', 'padder-set']);
/** What an alignment has read by itself. */
const free: readonly TestId[] = ['adjuster-end', 'adjuster-dead', 'three-points', 'dial-pattern'];

const facts = factsOf(exampleCard());
const sheet = sheetOf(facts);

/** Feedback has one of three reasons; the seed says which, and the act that belongs to it cures. */
function chosen(
	{ causes: standing, cures = [] }: Sickness,
	seed: number,
): { causes: readonly CauseId[]; cures: readonly TestId[] } {
	if (standing !== feedback) return { causes: standing, cures };
	const which = seed % 3;
	return {
		causes: [feedback[which] as CauseId],
		cures: which === 0 ? ['shields'] : which === 1 ? ['bypass-across'] : [],
	};
}

/** What a person does with an aligned set: names a symptom and follows the proposed tests to their end. */
function examined(hand: TroubleHand): Pick<Diagnosis, 'symptom' | 'readings' | 'answers'> & { finding: Finding } {
	const symptom = hand.symptom();
	let answers: readonly TestAnswer[] = free.map((test) => hand.answer(test));
	let finding = findingOf(symptom, answers);
	let readings = 0;
	while (finding.nextTest !== null && readings < mostTests) {
		answers = [...answers, hand.answer(finding.nextTest.test)];
		readings++;
		finding = findingOf(symptom, answers);
	}
	return { symptom, readings, answers, finding };
}

/**
 * Aligns a tampered set as the usual hand does, lets the person name a symptom and follow the proposed tests to their end; `null` for a set without a fault.
 * Where the finding is that the dial was not brought in, it is brought in with the dial's own guidance, and what is left is named anew.
 */
export function diagnosed(seed: number, kind: number | null): Diagnosis {
	const random = createRandom(seed ^ 0x51c4);
	const sickness = kind === null ? null : (sicknesses[kind] ?? null);
	const faults = sickness ? [sickness.fault(random.uniform(), Math.floor(4 * random.uniform()))] : [];
	const bench = new SimulatedBench(tamperedSet(tm517, seed, faults), { meterDb: 0.2, pointerM: 0.3e-3, seed });
	workUsually(bench, sheet);
	const { causes: right, cures } = sickness ? chosen(sickness, seed) : { causes: [], cures: [] };
	let seen = examined(new TroubleHand(bench.set, cures, seed));
	if (dialIsOpen.has(seen.finding.causes[0]?.cause)) {
		workDialGuided(bench, sheet, facts);
		const again = examined(new TroubleHand(bench.set, cures, seed + 1));
		seen = { ...again, readings: seen.readings + again.readings };
	}
	const { finding } = seen;
	const isRight = (cause: CauseId): boolean => (sickness ? right.includes(cause) : causes[cause].isSound === true);
	const place = finding.causes.findIndex(({ cause }) => isRight(cause));
	return {
		name: sickness?.name ?? 'healthy',
		symptom: seen.symptom,
		place: place < 0 ? Number.POSITIVE_INFINITY : place,
		first: finding.causes[0]?.cause ?? 'misaligned',
		readings: seen.readings,
		isSettled: finding.isSettled,
		answers: seen.answers,
	};
}
