// Take a photo. What it is of comes first, and picture and words are kept as a draft: a phone may throw the page away
// while the camera is open and after. The picture is made smaller before it is kept.
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { viewGroup } from '../../../../stand/index.ts';
import type { Engine, Picture } from '../../engine/port.ts';
import { Sign } from '../../look/index.ts';
import { text } from '../../text/index.ts';
import { useField, useGroup, useSetting } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { AzimuthField } from '../parts/AzimuthField.tsx';
import { TextField, Troubles, Unfold } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { StemField } from '../parts/StemField.tsx';
import { PlaceField } from '../place/PlaceField.tsx';
import { byNearestTag } from '../stems/nextTag.ts';
import { go } from '../way.ts';
import { shrink } from './picture.ts';

const words = text.keep.photo;
const draftName = 'photo';

export function usePhotoEdge(): [number, (edge: number) => void] {
  return useSetting<number>('photoEdge', 1600);
}

export function useKeepPlace(): [boolean, (keep: boolean) => void] {
  return useSetting<boolean>('photoPlace', false);
}

export function Photo({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { engine, state } = useField();
  const { stand } = state.folded;
  const group = useGroup();
  const [edge] = usePhotoEdge();
  const [keepPlace] = useKeepPlace();
  const form = useForm(draftName, { stem: about.stem ?? '', ...(keepPlace ? { where: 'fix' } : {}) });
  const [picture, setPicture] = usePicture(engine);
  const near = group === undefined ? [] : viewGroup(stand, [], group).stems;
  const taken = async (file: File | undefined) => {
    if (file === undefined) return;
    setPicture('working');
    try {
      const smaller = await shrink(file, edge);
      setPicture(smaller);
      form.refuse([]);
      // Not before it can be saved: a phone that keeps no draft may still keep the photo.
      await engine
        .keepPicture(draftName, smaller)
        .catch(() => form.refuse([{ field: 'photo', value: '', remedy: words.notKept }]));
    } catch {
      setPicture(undefined);
      form.refuse([{ field: 'photo', value: file.name, remedy: words.unreadable }]);
    }
  };
  const save = async () => {
    if (picture === undefined || picture === 'working') {
      form.refuse([{ field: 'photo', value: '', remedy: words.needsPhoto }]);
      return;
    }
    const saved = await form.save({
      kind: 'photo-taken',
      fields: {
        original: picture.original,
        mediaType: picture.mediaType,
        ...(group === undefined ? {} : { group: group.id }),
        ...(keepPlace ? {} : { position: undefined }),
      },
      photo: { bytes: picture.bytes, mediaType: picture.mediaType },
    });
    if (saved === undefined) return;
    // What is left of a draft must not keep the photo from counting as saved.
    await engine.keepPicture(draftName, undefined).catch(() => undefined);
    go('today');
  };
  return (
    <Frame
      title={words.title}
      lead={words.first}
      form={form}
      foot={
        <div class="foot-row">
          <Camera again={picture !== undefined} onFile={(file) => void taken(file)} />
          <Act looks="large full" symbol="yes" disabled={form.busy} onTouch={() => void save()}>
            {words.save}
          </Act>
        </div>
      }
    >
      <StemField form={form} name="stem" likely={byNearestTag(near, undefined)} />
      <TextField form={form} name="of" />
      {picture === 'working' && <p role="status">{words.working}</p>}
      {picture !== undefined && picture !== 'working' && <Preview picture={picture} />}
      <Troubles form={form} name="photo" />
      <p class="soft small">
        {words.stripped} {keepPlace && words.placed} {words.keepOriginal}
      </p>
      {keepPlace && <PlaceField form={form} />}
      <Unfold label={text.fields.more}>
        <AzimuthField form={form} name="facing" />
      </Unfold>
    </Frame>
  );
}

type Taken = Picture | 'working' | undefined;

/** The picture of the draft, brought back after a reload; one that is taken meanwhile stays. */
function usePicture(engine: Engine): [Taken, (picture: Taken) => void] {
  const [picture, setPicture] = useState<Taken>(undefined);
  useEffect(() => {
    void engine.picture(draftName).then((kept) => setPicture((now) => now ?? kept));
  }, [engine]);
  return [picture, setPicture];
}

type Asked = Readonly<{ again: boolean; onFile: (file: File | undefined) => void }>;

function Camera({ again, onFile }: Asked): JSX.Element {
  return (
    <label class="act large">
      <Sign of="photo" />
      <span>{again ? words.again : words.open}</span>
      <input
        class="only-heard"
        type="file"
        accept="image/*"
        capture="environment"
        onChange={(event) => {
          onFile(event.currentTarget.files?.[0]);
          event.currentTarget.value = '';
        }}
      />
    </label>
  );
}

function Preview({ picture }: Readonly<{ picture: Picture }>): JSX.Element | null {
  const [address, setAddress] = useState<string | undefined>(undefined);
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([picture.bytes as BlobPart], { type: picture.mediaType }));
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [picture]);
  return (
    <figure class="section">
      {address !== undefined && <img class="photo-shown" src={address} alt={words.alt} />}
      <figcaption class="soft small">
        {words.size(picture.width, picture.height, picture.bytes.length / 1000)}
      </figcaption>
    </figure>
  );
}
