import { type ReactNode, useState } from 'react';
import { IconButton } from '../parts/button.tsx';
import type { IconName } from '../parts/icon.tsx';
import { chooseTheme, type Theme, themeChosen, themes } from './theme.ts';

const looks: Record<Theme, { icon: IconName; words: string }> = {
  system: { icon: 'halves', words: 'as this device has it' },
  light: { icon: 'sun', words: 'light' },
  dark: { icon: 'moon', words: 'dark' },
};

export function ThemeSwitch(): ReactNode {
  const [theme, setTheme] = useState(themeChosen);
  const next = themes[(themes.indexOf(theme) + 1) % themes.length]!;
  return (
    <IconButton
      icon={looks[theme].icon}
      name={`Colours: ${looks[theme].words}; then ${looks[next].words}`}
      onClick={() => {
        chooseTheme(next);
        setTheme(next);
      }}
    />
  );
}
