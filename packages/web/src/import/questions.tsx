import type { ImportPlan, ImportQuestion } from '@keelrow/server/contract';
import type { ReactNode } from 'react';
import { Button } from '../parts/button.tsx';

interface QuestionsProps {
  readonly questions: readonly ImportQuestion[];
  readonly plan: ImportPlan;
  readonly onChange: (plan: ImportPlan) => void;
}

/** What a file leaves open is asked, each answer shown by what it would make of the file's own values. */
export function Questions({ questions, plan, onChange }: QuestionsProps): ReactNode {
  return (
    <ul className="questions">
      {questions.map((question) => (
        <li key={`${question.ask} ${question.column}`}>
          <p>{question.words}</p>
          <div className="answers">
            {question.answers.map(({ value, words }) => (
              <Button key={value} onClick={() => onChange(answered(question, value, plan))}>
                {words}
              </Button>
            ))}
          </div>
        </li>
      ))}
    </ul>
  );
}

function answered(question: ImportQuestion, value: string, plan: ImportPlan): ImportPlan {
  switch (question.ask) {
    case 'date order':
      return value === 'ymd' || value === 'dmy' || value === 'mdy' ? { ...plan, dateOrder: value } : plan;
    case 'decimal':
      return value === '.' || value === ',' ? { ...plan, decimal: value } : plan;
    case 'year day':
      return { ...plan, yearDay: value };
  }
}
