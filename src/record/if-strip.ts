import type { SetCard } from './set-card.ts';

/** The IF strip as its maker meant it, from the set card. */
export interface IfStripFacts {
	/** Tuned windings: of each transformer that the card names the third too where it has one; two transformers of two where it names none. */
	readonly windingCount: number;
	readonly isTripleTuned: boolean;
	readonly shape: 'peaked' | 'overcoupled' | 'staggered';
	readonly hasBandwidthSwitch: boolean;
}

/** What a set card says of the IF strip; what it does not say is taken for two double-tuned transformers that are peaked. */
export function ifStripFacts({ adjusters = [], ifCurve }: Pick<SetCard, 'adjusters' | 'ifCurve'>): IfStripFacts {
	const own = adjusters.filter(({ stage, use }) => stage === 'IF' && use !== 'FM');
	const transformers = new Map<number, number>();
	for (const { transformer, winding } of own)
		if (transformer !== undefined)
			transformers.set(transformer, Math.max(transformers.get(transformer) ?? 2, winding === 'third' ? 3 : 2));
	const unplaced = own.filter(({ transformer }) => transformer === undefined).length;
	const counted = [...transformers.values()].reduce((sum, windings) => sum + windings, unplaced);
	return {
		windingCount: counted === 0 ? 4 : counted,
		isTripleTuned: [...transformers.values()].includes(3),
		shape: ifCurve === 'overcoupled' || ifCurve === 'staggered' ? ifCurve : 'peaked',
		hasBandwidthSwitch: ifCurve === 'selectivity switch',
	};
}
