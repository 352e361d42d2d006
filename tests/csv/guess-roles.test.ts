import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guessRoles } from '../../src/csv/guess-roles.ts';
import { headingDate } from '../../src/csv/heading-date.ts';
import { readTable } from '../../src/csv/read-table.ts';
import type { Role, RoleOptions, Roles } from '../../src/csv/role.ts';

const rolesOf = (text: string, options?: RoleOptions): Roles =>
  guessRoles(readTable(text), options);
const brief = (role: Role): string => {
  const day = 'day' in role && role.day ? ` on ${role.day.day ?? 'a doubtful day'}` : '';
  if (role.role === 'column') return `column ${role.key}${day}`;
  if (role.role === 'weight') return `weight ${role.unit ?? '?'}${day}`;
  if (role.role === 'date' || role.role === 'born') return `${role.role} ${role.order ?? '?'}`;
  return `${role.role}${day}`;
};
const briefs = (text: string, options?: RoleOptions): string[] =>
  rolesOf(text, options).columns.map(({ role }) => brief(role));
const answers = (...pairs: [string, string][]): RoleOptions => ({ answers: new Map(pairs) });

describe('guessRoles(table): by the headings', () => {
  it.each([
    ['tag,name,2026-03-01\n0123,Willow,4\n', ['tag', 'name', 'count on 2026-03-01']],
    ['tag;kg\n982 000123456781;41,5\n', ['tag', 'weight kg']],
    [
      'Ear Tag No.,EID,Mob,Class,Weight (lb)\n12,982000123456781,A,ewe,91\n',
      ['tag', 'electronic', 'group', 'class', 'weight lb'],
    ],
    [
      'tag,date,chamber1,chamber2,eyelid,note\nA,2026-03-01,1,2,3,ok\n',
      ['tag', 'date any', 'column chamber1', 'column chamber2', 'column eyelid', 'note'],
    ],
    ['animal,FEC (epg),DOB\nA,150,1 March 2025\n', ['tag', 'epg', 'born any']],
    ['tag,n\nA,5\n', ['tag', 'count']],
    [
      'tag,kg 2026-03-01,2026-03-01 epg,2026-03-08 evening\nA,41,50,3\n',
      ['tag', 'weight kg on 2026-03-01', 'epg on 2026-03-01', 'count on 2026-03-08-evening'],
    ],
    [
      'tag,chamber1 2026-03-01,eyelid 2026-03-01\nA,4,3\n',
      ['tag', 'column chamber1 on 2026-03-01', 'column eyelid on 2026-03-01'],
    ],
    ['tag,2026-03-01\nA,50\nB,1200\nC,0\n', ['tag', 'epg on 2026-03-01']],
    ['tag,cup,cup note\nA,1,\n', ['tag', 'cup', 'ignored']],
    ['id,tag,animal\n1,A,x\n2,B,y\n', ['ignored', 'tag', 'ignored']],
    ['animal,tag\n982000123456781,A1\n982000123456782,A2\n', ['electronic', 'tag']],
    [
      'N.º de arete;Número electrónico;Lote;Clase;Peso (kg);Fecha de nacimiento;Observaciones\n12;982000123456781;A;oveja;41,5;2025-03-01;ok\n',
      ['tag', 'electronic', 'group', 'class', 'weight kg', 'born any', 'note'],
    ],
    [
      'Crotal;Nombre;Grupo;Fecha de muestreo;Vaso;Recuento\n12;Lola;A;2026-05-03;1;5\n',
      ['tag', 'name', 'group', 'date any', 'cup', 'count'],
    ],
    ['Identificación,HPG\nA,150\n', ['tag', 'epg']],
    ['identificacion,huevos por gramo,peso vivo en kg\nA,150,40\n', ['tag', 'epg', 'weight kg']],
    ['TAG , __proto__,constructor\nA,1,2\n', ['tag', 'ignored', 'ignored']],
  ])('reads %j', (text, expected) => {
    expect(briefs(text)).toEqual(expected);
  });

  it('knows the columns of the notebook by key and by label, and leaves out what it works out', () => {
    const known = [
      { key: 'lungworm', label: 'Lungworm larvae' },
      { key: 'epg', derived: true },
      { key: 'epg_low', label: 'epg, low', derived: true },
      { key: 'chamber1' },
    ];
    expect(briefs('tag,Lungworm larvae,epg_low\nA,1,2\n', { known })).toEqual([
      'tag',
      'column lungworm',
      'ignored',
    ]);
    expect(briefs('tag,chamber1,epg\nA,1,50\n', { known })).toEqual([
      'tag',
      'column chamber1',
      'ignored',
    ]);
    // A laboratory's list has no chambers: its epg are all there is.
    expect(briefs('tag,epg\nA,50\n', { known: [{ key: 'chamber1' }] })).toEqual(['tag', 'epg']);
  });

  it('says why a column is left out, and what else it might be', () => {
    const [, column] = rolesOf('tag,mystery\nA,1\nB,2\n').columns;
    expect(column?.role).toEqual({ role: 'ignored', why: 'the heading is not known' });
    expect(column?.sure).toBe(false);
    expect(column?.others.map(({ role }) => role)).toEqual(
      expect.arrayContaining(['count', 'epg', 'weight', 'note']),
    );
  });

  it('takes the role that a person chose, and gives up its own for it', () => {
    const chosen = new Map<number, Role>([[1, { role: 'tag' }]]);
    const roles = rolesOf('tag,number on the collar\nA,1\nB,2\n', { chosen });
    expect(roles.columns.map(({ role, sure }) => [role.role, sure])).toEqual([
      ['ignored', false],
      ['tag', true],
    ]);
  });
});

describe('guessRoles(table): by the values, where there are no headings', () => {
  it.each([
    ['982 000123456781\n982 000123456782\n', ['electronic']],
    [
      '982000123456781,41.5,2026-03-01 10:22:31\n982000123456782,38.0,2026-03-01 10:23:02\n',
      ['electronic', 'weight ?', 'date any'],
    ],
    [
      '982000123456781;41,5 kg;10:22\n982000123456782;38,0 kg;10:24\n',
      ['electronic', 'weight ?', 'time'],
    ],
    ['A1\t5\nA2\t6\nA3\t0\n', ['tag', 'count']],
    ['1041,41\n1042,38\n1043,52\n', ['tag', 'weight ?']],
  ])('reads %j', (text, expected) => {
    expect(briefs(text)).toEqual(expected);
  });

  it('asks for the unit of bare weights, and not where the cells bear it', () => {
    const bare = rolesOf('tag,weight\nA1,41.5\n');
    expect(bare.questions).toMatchObject([
      {
        id: 'unit:1',
        kind: 'weight-unit',
        columns: [1],
        choices: [{ value: 'kg' }, { value: 'lb' }],
      },
    ]);
    expect(briefs('tag,weight\nA1,41.5\n', answers(['unit:1', 'lb']))).toEqual([
      'tag',
      'weight lb',
    ]);
    expect(rolesOf('tag,weight\nA1,41.5\n', answers(['unit:1', 'lb'])).questions).toEqual([]);
    expect(rolesOf('tag,weight\nA1,41.5 kg\nA2,91 lb\n').questions).toEqual([]);
    expect(rolesOf('tag,weight kg\nA1,41.5\n').questions).toEqual([]);
  });
});

describe('guessRoles(table): dates', () => {
  it('asks once about a doubtful date in a heading, with both readings', () => {
    const { questions } = rolesOf('tag,03/04/2026\nA,1\n');
    expect(questions).toEqual([
      {
        id: 'order:headings',
        kind: 'date-order',
        columns: [1],
        sentence:
          '"03/04/2026" in the headings can be 3 April 2026 or 4 March 2026. Which comes first in this list?',
        choices: [
          { value: 'dmy', label: 'the day first: 3 April 2026' },
          { value: 'mdy', label: 'the month first: 4 March 2026' },
        ],
      },
    ]);
  });

  it('takes the answer for all headings', () => {
    const text = 'tag,03/04/2026,05/04/2026\nA,1,2\n';
    expect(rolesOf(text).questions).toHaveLength(1);
    expect(briefs(text, answers(['order:headings', 'mdy']))).toEqual([
      'tag',
      'count on 2026-03-04',
      'count on 2026-05-04',
    ]);
    expect(rolesOf(text, answers(['order:headings', 'mdy'])).questions).toEqual([]);
  });

  it('asks nothing where one heading settles the others', () => {
    const text = 'tag,03/04/2026,17/04/2026\nA,1,2\n';
    expect(briefs(text)).toEqual(['tag', 'count on 2026-04-03', 'count on 2026-04-17']);
    expect(rolesOf(text).questions).toEqual([]);
  });

  it('asks once about a doubtful column, never about its cells', () => {
    const rows = Array.from({ length: 300 }, (_, at) => `A${at},0${(at % 9) + 1}/04/2026`);
    const roles = rolesOf(`tag,date\n${rows.join('\n')}\n`);
    expect(roles.questions).toMatchObject([{ id: 'order:1', columns: [1] }]);
    expect(roles.questions[0]?.sentence).toContain('line 2');
    expect(roles.faults).toEqual([]);
  });

  it('settles a column by its one date that is clear, even on the last line', () => {
    const rows = Array.from({ length: 900 }, (_, at) => `A${at},03/04/2026`);
    expect(briefs(`tag,date\n${rows.join('\n')}\nB,13/04/2026\n`)).toEqual(['tag', 'date dmy']);
  });

  it('asks where no order fits all, and then refuses the cells that do not fit, by line', () => {
    const text = 'tag,date\nA,13/04/2026\nB,04/13/2026\nC,soon\n';
    expect(rolesOf(text).questions).toHaveLength(1);
    const roles = rolesOf(text, answers(['order:1', 'dmy']));
    expect(roles.faults).toMatchObject([
      { fault: 'not-a-date', line: 3, column: 1, refused: 'row' },
      { fault: 'not-a-date', line: 4, column: 1, refused: 'row' },
    ]);
  });

  it('asks of two equal date headings whether they are two samplings, and loses neither', () => {
    const text = 'tag,2026-03-01,2026-03-01\nA,1,2\n';
    const { questions, columns } = rolesOf(text);
    expect(questions).toMatchObject([{ id: 'same:1', kind: 'same-heading', columns: [1, 2] }]);
    expect(questions[0]?.sentence).toContain('two samplings');
    expect(columns.map(({ role }) => brief(role))).toEqual([
      'tag',
      'count on 2026-03-01',
      'count on 2026-03-01',
    ]);
    const after = (value: string): string[] => briefs(text, answers(['same:1', value])).slice(1);
    expect(after('samplings')).toEqual(['count on 2026-03-01', 'count on 2026-03-01-second']);
    expect(after('chambers')).toEqual([
      'column chamber1 on 2026-03-01',
      'column chamber2 on 2026-03-01',
    ]);
    expect(after('first')).toEqual(['count on 2026-03-01', 'ignored']);
    expect(after('last')).toEqual(['ignored', 'count on 2026-03-01']);
  });

  it('asks of two columns count as well, and first of the order where their days are doubtful', () => {
    expect(rolesOf('tag,count,count\nA,1,2\n').questions).toMatchObject([{ id: 'same:1' }]);
    const doubtful = 'tag,03/04/2026,03/04/2026\nA,1,2\n';
    expect(rolesOf(doubtful).questions.map(({ id }) => id)).toEqual(['order:headings', 'same:1']);
    expect(
      briefs(doubtful, answers(['order:headings', 'dmy'], ['same:1', 'samplings'])).slice(1),
    ).toEqual(['count on 2026-04-03', 'count on 2026-04-03-second']);
  });
});

describe('guessRoles(table): tags', () => {
  it('refuses numbers that a spreadsheet destroyed, line by line', () => {
    const { faults } = rolesOf('tag\n9.82E+14\n9.82E+14\n');
    expect(faults).toMatchObject([
      { fault: 'destroyed-tag', line: 2, column: 0, refused: 'row' },
      { fault: 'destroyed-tag', line: 3, column: 0, refused: 'row' },
    ]);
    expect(faults[0]?.sentence).toContain('spreadsheet');
    expect(rolesOf('9,82E+14;41,5\n9,82E+14;38,0\n').faults).toHaveLength(2);
  });

  it('refuses only the cell where the tag beside it is whole', () => {
    expect(rolesOf('tag,eid\nA1,9.82E+14\n').faults).toMatchObject([
      { fault: 'destroyed-tag', column: 1, refused: 'cell' },
    ]);
  });

  it('warns of 0123 and 123 with both lines, and keeps both', () => {
    expect(rolesOf('tag,name,2026-03-01\n0123,Willow,4\n123,Fern,\n').faults).toMatchObject([
      {
        fault: 'like-tags',
        line: 3,
        refused: 'nothing',
        sentence: expect.stringMatching(/^Lines 2 and 3: .*leading zeros/) as string,
      },
    ]);
  });

  it('has nothing against short tags and against one animal on many lines', () => {
    expect(
      rolesOf('tag,date,n\n9E5,2026-03-01,1\n9E5,2026-03-08,2\n1.5.2,2026-03-01,3\n').faults,
    ).toEqual([]);
    expect(rolesOf('tag,n\n982 000123456789,1\n8000F580075BCD15,2\n').faults).toEqual([]);
  });

  it('refuses a row that names no animal, but not one that names a cup', () => {
    expect(rolesOf('tag,n\nA1,5\n,6\n').faults).toMatchObject([
      { fault: 'no-tag', line: 3, refused: 'row' },
    ]);
    expect(rolesOf('tag,cup,n\nA1,1,5\n,2,6\n').faults).toEqual([]);
  });
});

describe('guessRoles(table): the decimal mark', () => {
  it.each([
    ['tag;kg\nA;41,5\n', ','],
    ['tag;kg\nA;41.5\n', '.'],
    ['tag,kg\nA,41.5\n', '.'],
    ['tag,kg\nA,"41,5"\n', ','],
    ['tag;n\nA;5\n', ','],
    ['tag,n\nA,5\n', '.'],
  ])('of %j is %s', (text, mark) => {
    expect(rolesOf(text).decimalMark).toBe(mark);
  });
});

describe('guessRoles(any table)', () => {
  it('never throws, and gives every column one role, a single role to one column only', () => {
    const cell = fc.constantFrom(
      ...[
        'tag',
        'id',
        'name',
        'count',
        'count',
        'epg',
        'kg',
        'weight',
        'date',
        '03/04/2026',
        '2026-03-01',
      ],
      ...[
        '2026-03-01 x/y',
        'chamber1',
        'A1',
        '0123',
        '123',
        '9.82E+14',
        '982000123456789',
        '5',
        '41.5',
        '',
        'x',
      ],
    );
    const table = fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(
        table,
        fc.constantFrom('dmy', 'samplings', 'chambers', 'last', 'kg'),
        (rows, answer) => {
          const read = readTable(rows.map((row) => row.join(',')).join('\n'));
          const first = guessRoles(read);
          const all = new Map(first.questions.map(({ id }) => [id, answer]));
          for (const { columns } of [first, guessRoles(read, { answers: all })]) {
            expect(columns.map(({ column }) => column)).toEqual(read.headers.map((_, at) => at));
            const tags = columns.filter(({ role }) => role.role === 'tag');
            expect(tags.length).toBeLessThanOrEqual(1);
          }
          for (const { choices, sentence } of first.questions) {
            expect(choices.length).toBeGreaterThan(1);
            expect(sentence).toMatch(/\?$/);
          }
        },
      ),
      { numRuns: 800 },
    );
  });

  it('is done with its questions once all are answered', () => {
    const read = readTable('tag,03/04/2026,03/04/2026,weight\nA,1,2,40\n');
    const answered = new Map<string, string>();
    for (let round = 0; round < 5; round++) {
      const { questions } = guessRoles(read, { answers: answered });
      for (const { id, choices } of questions) answered.set(id, choices[0]?.value ?? '');
    }
    expect(guessRoles(read, { answers: answered }).questions).toEqual([]);
    expect([...answered.keys()].sort()).toEqual(['order:headings', 'same:1', 'unit:3']);
  });
});

describe('headingDate(heading)', () => {
  it.each([
    ['2026-05-03', '2026-05-03', ''],
    ['FEC 3 May 2026', '2026-05-03', 'FEC'],
    ['May 3, 2026 (evening)', '2026-05-03', 'evening'],
    ['2026-05-03-evening', '2026-05-03', 'evening'],
    ['20260503', '2026-05-03', ''],
  ])('finds the day in %s', (heading, date, rest) => {
    const found = headingDate(heading);
    expect(found?.readings.map((reading) => reading.date)).toEqual([date]);
    expect(found?.rest).toBe(rest);
  });

  it.each(['tag', 'count 2', '1.5.2', 'May', '2026-13-45', 'FF-04-117'])(
    'finds none in %s',
    (heading) => {
      expect(headingDate(heading)).toBeNull();
    },
  );
});
