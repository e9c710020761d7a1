/** Screens of the page, each with its own address, so that Back works. */
export type Place =
	| { readonly screen: 'shelf' }
	| { readonly screen: 'new' }
	| { readonly screen: 'card' | 'sheet' | 'bench' | 'record'; readonly set: string };

function placeOf(hash: string): Place {
	const [screen, set] = hash.replace(/^#\/?/, '').split('/');
	if ((screen === 'card' || screen === 'sheet' || screen === 'bench' || screen === 'record') && set)
		return { screen, set: decodeURIComponent(set) };
	return screen === 'new' ? { screen } : { screen: 'shelf' };
}

export function addressOf(place: Place): string {
	return 'set' in place ? `#/${place.screen}/${encodeURIComponent(place.set)}` : `#/${place.screen}`;
}

class Address {
	place: Place = $state(placeOf(location.hash));
	constructor() {
		addEventListener('hashchange', () => {
			this.place = placeOf(location.hash);
		});
	}
	go(place: Place): void {
		location.hash = addressOf(place);
	}
}

export const address = new Address();
