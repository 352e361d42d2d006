import type { Column } from '../shared/notebook.ts';
import type { Encoding } from '../src/csv/decode.ts';
import type { Role } from '../src/csv/role.ts';
import { dayIdWords } from '../src/text/day-words.ts';
import { say } from '../src/text/say.ts';

/** The marks that can be chosen between fields, with their names. */
export const separators: readonly (readonly [mark: string, name: string])[] = [
  [',', say('comma')],
  [';', say('semicolon')],
  ['\t', say('tab')],
  ['|', say('bar')],
];

export function separatorName(mark: string): string {
  return separators.find(([known]) => known === mark)?.[1] ?? `"${mark}"`;
}

export function encodingName(encoding: Encoding): string {
  const names: Readonly<Record<Encoding, string>> = {
    'utf-8': 'UTF-8',
    'utf-16le': 'UTF-16',
    'utf-16be': 'UTF-16',
    'windows-1252': 'Windows-1252',
    mixed: say('UTF-8 and Windows-1252 mixed'),
  };
  return names[encoding];
}

const roleNames: Readonly<Record<Exclude<Role['role'], 'column'>, string>> = {
  tag: say('tag'),
  electronic: say('electronic number'),
  name: say('name'),
  group: say('group'),
  class: say('class'),
  species: say('species'),
  born: say('date of birth'),
  date: say('sampling day'),
  label: say('label of the day'),
  time: say('time of day'),
  cup: say('cup number'),
  weight: say('weight'),
  count: say('eggs counted'),
  epg: say('eggs per gram'),
  note: say('note'),
  ignored: say('leave out'),
};

/** A role as it stands in a choice. */
export function roleName(role: Role, columns: readonly Column[]): string {
  const name =
    role.role === 'column'
      ? (columns.find(({ key }) => key === role.key)?.label ?? role.key)
      : roleNames[role.role];
  const day = 'day' in role ? role.day?.day : undefined;
  const what = role.role === 'weight' && role.unit ? `${name}, ${role.unit}` : name;
  return day ? say('{what} on {day}', { what, day: dayIdWords(day) }) : what;
}

/** One text for each role, for the value of a choice. */
export function roleValue(role: Role): string {
  return role.role === 'column' ? `column ${role.key}` : role.role;
}

/** Every role that a person may choose for a column, the heading's own day kept. */
export function rolesToChoose(current: Role, columns: readonly Column[]): readonly Role[] {
  const day = 'day' in current ? current.day : null;
  const typed = columns.filter(
    ({ kind, typedOver }) => kind !== 'outcome' && (kind !== 'formula' || typedOver === true),
  );
  const roles: readonly Role[] = [
    ...(['tag', 'electronic', 'name', 'group', 'class', 'species'] as const).map((role) => ({
      role,
    })),
    { role: 'date', order: null },
    ...(['label', 'cup'] as const).map((role) => ({ role })),
    { role: 'born', order: null },
    { role: 'count', day },
    { role: 'epg', day },
    { role: 'weight', unit: null, day },
    { role: 'note' },
    ...typed.map(({ key }): Role => ({ role: 'column', key, day })),
    { role: 'ignored', why: say('left out, as you chose') },
  ];
  return roles.map((role) => (roleValue(role) === roleValue(current) ? current : role));
}
