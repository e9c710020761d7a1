import { join } from 'node:path';
import type { SetDesign } from '#core/receiver/design.ts';
import { designs } from '#core/receiver/designs/designs.ts';
import type { SetCard } from '#record/set-card.ts';
import { packageRoot } from '#server/package-root.ts';
import { InputFault } from './command.ts';

/** The card of the virtual set that --set names, or of the demo set. */
export function virtualSetPath(given: unknown): string {
	return typeof given === 'string' ? given : join(packageRoot(), 'examples/thistlemoor-tm-517.json');
}

/** The simulated receiver that a card describes. */
export function designOf(card: SetCard, path: string): SetDesign {
	const design = designs[card.virtualSet ?? ''];
	if (!design)
		throw new InputFault(
			`${path}: virtualSet names no virtual set: give one of ${Object.keys(designs).join(', ')} on the card`,
		);
	return design;
}
