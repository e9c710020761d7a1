import type { SetCard } from './set-card.ts';

/** What a set is called: maker and model as its card gives them. */
export function setName({ maker, model }: Pick<SetCard, 'maker' | 'model'>): string {
	return [maker, model].filter(Boolean).join(' ') || 'unnamed set';
}
