/** Screens of one set, in the order of the work. */
export const setScreens = ['card', 'sheet', 'bench', 'response', 'tests', 'record'] as const;
export type SetScreen = (typeof setScreens)[number];

/** Screens of the page, each with its own address, so that Back works. */
export type Place =
	| { readonly screen: 'shelf' }
	| { readonly screen: 'new' }
	| { readonly screen: 'practice' }
	| { readonly screen: SetScreen; readonly set: string };

function placeOf(hash: string): Place {
	const [screen, set] = hash.replace(/^#\/?/, '').split('/');
	const own = setScreens.find((name) => name === screen);
	if (own && set) return { screen: own, set: decodeURIComponent(set) };
	return screen === 'new' || screen === 'practice' ? { screen } : { screen: 'shelf' };
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
