import { type ReactNode, type RefObject, useEffect, useRef, useState } from 'react';
import { Icon } from './icon.tsx';
import './search-box.css';

interface SearchProps {
  readonly value: string;
  /** What is searched, for those who hear the page. */
  readonly name: string;
  readonly placeholder: string;
  readonly onSearch: (text: string) => void;
  /** Lets `/` lead here from anywhere on the page. */
  readonly bySlash?: boolean;
  /** The first of what was found: the down arrow leads there from the box. */
  readonly firstFound?: string;
}

const rest = 180;

/** Searches as one types, after a short rest. */
export function SearchBox({
  value,
  name,
  placeholder,
  onSearch,
  bySlash = false,
  firstFound,
}: SearchProps): ReactNode {
  const box = useRef<HTMLInputElement>(null);
  const [typed, setTyped] = useState(value);
  const search = useRef(onSearch);
  useEffect(() => {
    search.current = onSearch;
  });
  useEffect(() => setTyped(value), [value]);
  useEffect(() => {
    if (typed === value) return;
    const timer = setTimeout(() => search.current(typed), rest);
    return () => clearTimeout(timer);
  }, [typed, value]);
  useSlash(box, bySlash);
  return (
    <div className="search-box">
      <Icon name="search" size={18} />
      <input
        ref={box}
        type="search"
        aria-label={name}
        placeholder={placeholder}
        aria-keyshortcuts={bySlash ? '/' : undefined}
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'ArrowDown' || !firstFound) return;
          event.preventDefault();
          document.querySelector<HTMLElement>(firstFound)?.focus();
        }}
      />
      {bySlash && <kbd>/</kbd>}
    </div>
  );
}

function useSlash(box: RefObject<HTMLInputElement | null>, wanted: boolean): void {
  useEffect(() => {
    if (!wanted) return;
    const slash = (event: KeyboardEvent): void => {
      const typing =
        event.target instanceof HTMLElement && /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName);
      if (event.key !== '/' || typing || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      box.current?.focus();
    };
    addEventListener('keydown', slash);
    return () => removeEventListener('keydown', slash);
  }, [box, wanted]);
}
