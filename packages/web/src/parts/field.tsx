import { type ReactNode, useId } from 'react';
import './field.css';

interface FieldProps {
  readonly label: string;
  readonly hint?: ReactNode;
  readonly problem?: string | null | undefined;
  readonly required?: boolean | undefined;
  /** Draws the control; it must carry these attributes. */
  readonly children: (control: {
    id: string;
    'aria-describedby': string | undefined;
    'aria-invalid': true | undefined;
  }) => ReactNode;
}

/** A control with its name above it, what it means beneath, and what is wrong with it in words. */
export function Field({ label, hint, problem, required, children }: FieldProps): ReactNode {
  const id = useId();
  const described = [hint ? `${id}-hint` : '', problem ? `${id}-problem` : ''].filter(Boolean).join(' ');
  return (
    <div className="field">
      <label htmlFor={id}>
        {label}
        {required && <span className="soft"> (needed)</span>}
      </label>
      {children({
        id,
        'aria-describedby': described || undefined,
        'aria-invalid': problem ? true : undefined,
      })}
      {hint && (
        <p id={`${id}-hint`} className="field-hint">
          {hint}
        </p>
      )}
      {problem && (
        <p id={`${id}-problem`} className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

/** A name and its control on one line, for filters. */
export function InlineField({
  label,
  children,
}: {
  readonly label: string;
  readonly children: (id: string) => ReactNode;
}): ReactNode {
  const id = useId();
  return (
    <span className="inline-field">
      <label htmlFor={id}>{label}</label>
      {children(id)}
    </span>
  );
}
