import type { PictureShown } from '@keelrow/server/contract';
import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { dateInWords } from '../parts/words.ts';
import './pictures.css';

/** Pictures with what they show, each leading to its original; memos to be listened to. */
export function PictureList({ pictures }: { readonly pictures: readonly PictureShown[] }): ReactNode {
  return (
    <ul className="pictures">
      {pictures.map((picture) => (
        <li key={picture.hash}>
          <File picture={picture} />
          <p>
            <strong>{picture.plant ?? picture.genet?.code ?? 'No plant named'}</strong>
            {picture.trait && ` ${picture.trait.name}`}
          </p>
          {picture.genet && (
            <p>
              <Link to="/plants/$genet" params={{ genet: picture.genet.code }}>
                {picture.genet.name ?? picture.genet.code}
              </Link>
            </p>
          )}
          {(picture.caption ?? picture.remark) && <p>{picture.caption ?? picture.remark}</p>}
          <p className="small soft">
            {[picture.takenOn ? dateInWords(picture.takenOn) : 'day not known', picture.by]
              .filter(Boolean)
              .join(', ')}
          </p>
        </li>
      ))}
    </ul>
  );
}

function File({ picture }: { readonly picture: PictureShown }): ReactNode {
  const file = `/api/photos/${picture.hash}`;
  const about = [picture.plant, picture.trait?.name].filter(Boolean).join(' ') || 'a picture';
  if (picture.mediaType?.startsWith('audio/'))
    return (
      // biome-ignore lint/a11y/useMediaCaption: a memo spoken in a bed; nobody has written down what it says
      <audio controls preload="none" src={file} aria-label={`Memo: ${about}`} />
    );
  return (
    <a href={file} target="_blank" rel="noreferrer" aria-label={`${about}, the original`}>
      <img src={file} alt={about} loading="lazy" />
    </a>
  );
}
