/** The screens where one types, through Ink's own components: no beat is drawn there that would have to wait. */
import type { Lettering } from '../../music/page/strip.ts';
import type { Stand } from '../../practice/stand.ts';
import type { KeyRow } from '../keys.ts';
import type { Size } from '../whole-screen.ts';
import { ListPage } from './list-page.tsx';
import { OwnFormPage } from './own-form-page.tsx';
import { LetteringContext } from './styled.tsx';

export interface FormPageProps {
  readonly stand: Stand;
  readonly keys: readonly KeyRow[];
  readonly size: Size;
  readonly lettering: Lettering;
}

export function FormPage({ stand, keys, size, lettering }: FormPageProps) {
  const { view } = stand;
  return (
    <LetteringContext.Provider value={lettering}>
      {view.screen === 'form' ? <OwnFormPage stand={stand} view={view} size={size} lettering={lettering} /> : null}
      {view.screen === 'list' ? <ListPage stand={stand} view={view} keys={keys} size={size} /> : null}
    </LetteringContext.Provider>
  );
}
