import type { Parsed } from '#record/parsed.ts';
import { givenPhotoBytes, type Photo, type PhotoWords } from '#record/photo.ts';
import { doneAnswer, photoAnswer, photosAnswer } from '#wire/messages.ts';
import { ask } from './server.ts';

const ofSet = (set: string): string => `/sets/${encodeURIComponent(set)}/photos`;

/** Where the picture of a photograph is. */
export const pictureAddress = (id: string): string => `/api/photos/${encodeURIComponent(id)}/picture.jpg`;
export const fetchPhotos = (set: string) => ask(ofSet(set), photosAnswer);
export const describePhoto = (id: string, words: PhotoWords) =>
	ask(`/photos/${encodeURIComponent(id)}`, photoAnswer, { method: 'PUT', body: JSON.stringify(words) });
export const removePhoto = (id: string) => ask(`/photos/${encodeURIComponent(id)}`, doneAnswer, { method: 'DELETE' });

/** Sends a file to be kept as a photograph of a set; one that is too large does not set out. */
export async function addPhoto(set: string, file: File): Promise<Parsed<Photo>> {
	if (file.size > givenPhotoBytes)
		return {
			ok: false,
			words: `this file has ${(file.size / 1e6).toFixed(0)} megabytes: give one of at most ${givenPhotoBytes / 1e6}`,
		};
	const answer = await ask(ofSet(set), photoAnswer, { method: 'POST', body: file });
	return answer.ok ? { ok: true, value: answer.value.photo } : answer;
}
