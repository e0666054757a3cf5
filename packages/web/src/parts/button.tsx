import type { ButtonHTMLAttributes, ReactNode } from 'react';
import { Icon, type IconName } from './icon.tsx';
import './button.css';

interface Looks extends ButtonHTMLAttributes<HTMLButtonElement> {
  /** main: the one thing to do here; plain: another thing; quiet: beside others; danger: hard to undo. */
  readonly look?: 'main' | 'plain' | 'quiet' | 'danger';
  readonly icon?: IconName;
}

export function Button({ look = 'plain', icon, children, className, type, ...rest }: Looks): ReactNode {
  return (
    <button type={type ?? 'button'} className={`button button-${look} ${className ?? ''}`} {...rest}>
      {icon && <Icon name={icon} size={18} />}
      {children}
    </button>
  );
}

/** A button that shows a drawing alone; its name is read out and shown on hovering. */
export function IconButton({
  icon,
  name,
  className,
  ...rest
}: { readonly icon: IconName; readonly name: string } & ButtonHTMLAttributes<HTMLButtonElement>): ReactNode {
  return (
    <button
      type="button"
      className={`icon-button ${className ?? ''}`}
      aria-label={name}
      title={name}
      {...rest}
    >
      <Icon name={icon} />
    </button>
  );
}
