import { randomUUID } from 'node:crypto';
import { Hono } from 'hono';
import type { Parsed } from '#record/parsed.ts';
import { type Photo, photosOfSet, photoWords } from '#record/photo.ts';
import type { Album } from '#storage/album.ts';
import type { Shelf } from '#storage/shelf.ts';
import { doneAnswer, photoAnswer, photosAnswer } from '#wire/messages.ts';
import { pictureFrom } from './photo-intake.ts';
import { checked } from './question.ts';

interface PhotoHouse {
	readonly shelf: Pick<Shelf, 'set'>;
	readonly album: Album;
	readonly nowMs: () => number;
}

/** Takes a photograph of a set in from a file's content; or says why not. */
export async function takePhoto(
	{ shelf, album, nowMs }: PhotoHouse,
	set: string,
	file: Uint8Array,
	words: Partial<Pick<Photo, 'view' | 'moment' | 'caption'>> = {},
): Promise<Parsed<Photo>> {
	if (!(await shelf.set(set))) return { ok: false, words: `there is no set "${set.slice(0, 64)}" on the shelf` };
	if ((await album.photos(set)).length >= photosOfSet)
		return { ok: false, words: `this set has ${photosOfSet} photographs: take one away first` };
	const picture = await pictureFrom(file);
	if (!picture.ok) return picture;
	const { bytes, widthPx, heightPx } = picture.value;
	const about: Photo = {
		view: 'top',
		moment: 'any time',
		caption: '',
		...words,
		places: [],
		id: randomUUID(),
		addedAtMs: nowMs(),
		widthPx,
		heightPx,
	};
	await album.keep(set, about, bytes);
	return { ok: true, value: about };
}

/** The photographs of a set: `/sets/:id/photos`; one of them: `/photos/:id`, its picture `/photos/:id/picture.jpg`. */
export function photoRoute(house: PhotoHouse): Hono {
	const { album } = house;
	const route = new Hono();
	const gone = { fault: 'this photograph is not kept any more' };
	route.get('/sets/:id/photos', async (context) =>
		context.json(checked(photosAnswer, { photos: [...(await album.photos(context.req.param('id')))] })),
	);
	route.post('/sets/:id/photos', async (context) => {
		const taken = await takePhoto(house, context.req.param('id'), new Uint8Array(await context.req.arrayBuffer()));
		if (!taken.ok) return context.json({ fault: taken.words }, 422);
		return context.json(checked(photoAnswer, { photo: taken.value }), 201);
	});
	route.get('/photos/:id/picture.jpg', async (context) => {
		const bytes = await album.picture(context.req.param('id'));
		if (bytes === null) return context.json(gone, 404);
		return context.body(new Uint8Array(bytes), 200, {
			'Content-Type': 'image/jpeg',
			// A picture is never another under the same address.
			'Cache-Control': 'private, max-age=31536000, immutable',
		});
	});
	route.put('/photos/:id', async (context) => {
		const words = photoWords.safeParse(await context.req.json().catch(() => undefined));
		if (!words.success)
			return context.json(
				{ fault: 'cannot keep this: a caption has at most 200 letters, a place lies on the picture' },
				422,
			);
		const photo = await album.describe(context.req.param('id'), words.data);
		return photo ? context.json(checked(photoAnswer, { photo })) : context.json(gone, 404);
	});
	route.delete('/photos/:id', async (context) => {
		await album.remove(context.req.param('id'));
		return context.json(checked(doneAnswer, { done: true }));
	});
	return route;
}
