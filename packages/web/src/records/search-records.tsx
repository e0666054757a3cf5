import { type ReactNode, useEffect, useRef, useState } from 'react';
import { Icon } from '../parts/icon.tsx';
import '../plants/plant-filters.css';

interface SearchProps {
  readonly value: string;
  readonly what: string;
  readonly onSearch: (text: string) => void;
}

export function SearchRecords({ value, what, onSearch }: SearchProps): ReactNode {
  const [typed, setTyped] = useState(value);
  const search = useRef(onSearch);
  useEffect(() => {
    search.current = onSearch;
  });
  useEffect(() => {
    if (typed === value) return;
    const rest = setTimeout(() => search.current(typed), 200);
    return () => clearTimeout(rest);
  }, [typed, value]);
  return (
    <div className="search-box">
      <Icon name="search" size={18} />
      <input
        type="search"
        aria-label={`Search ${what}`}
        placeholder="Search"
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
    </div>
  );
}
