export const themes = ['system', 'light', 'dark'] as const;
export type Theme = (typeof themes)[number];

const place = 'keelrow-theme';

export function themeChosen(): Theme {
  const kept = localStorage.getItem(place);
  return themes.find((theme) => theme === kept) ?? 'system';
}

export function applyTheme(theme: Theme): void {
  if (theme === 'system') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
}

export function chooseTheme(theme: Theme): void {
  localStorage.setItem(place, theme);
  applyTheme(theme);
}
