import type { Animal, AnimalClass, Notebook, Species } from '../../shared/notebook.ts';
import type { RowId } from '../../shared/ref.ts';
import { isFault, type Fault } from '../../shared/value.ts';
import { speciesOfClass } from '../notebook/pasted-animals.ts';
import { groupOn } from '../notebook/present.ts';
import { animalsOf, daysOf } from '../notebook/read.ts';
import { canonicalTag, likeKey, likeTag, type Tag } from '../text/tag.ts';
import { classOfWord, classOrSpeciesShown, speciesOfWord } from './class-words.ts';
import { atLine, type ImportProblem, type PlannedAnimal } from './import-plan.ts';
import { dateWords } from '../text/date-words.ts';
import { say } from '../text/say.ts';

/** What one line says of its animal, as text. */
export interface AnimalLine {
  readonly line: number;
  readonly tag: string;
  readonly electronic: string;
  readonly name: string;
  readonly class: string;
  readonly species: string;
  readonly born: string;
  readonly group: string;
  /** The day of the line, for the group; '' where it has none. */
  readonly date: string;
}

interface Found {
  readonly id: RowId;
  readonly tag: string;
  readonly line: number;
  readonly known: Animal | undefined;
  readonly facts: { -readonly [K in keyof PlannedAnimal['facts']]: PlannedAnimal['facts'][K] };
  readonly groups: Map<string, string>;
  firstDate: string;
  readonly said: Set<string>;
}

/**
 * The animals of a list: each line finds the animal it names, by tag or by electronic number in any of
 * its written forms, or makes a new one. Facts that the notebook has already are never written over.
 */
export class ImportAnimals {
  private readonly known = new Map<RowId, Animal>();
  private readonly byKey = new Map<string, Animal>();
  private readonly likes = new Map<string, string>();
  private readonly found = new Map<RowId, Found>();
  private readonly idByKey = new Map<string, RowId>();
  private readonly tags = new Map<string, Tag | Fault>();
  private readonly problems: ImportProblem[] = [];

  constructor(
    private readonly notebook: Notebook,
    private readonly newId: () => string,
  ) {
    for (const animal of animalsOf(notebook)) {
      this.known.set(animal.id, animal);
      this.note(animal.tag, animal, true);
      if (animal.electronic) this.note(animal.electronic, animal, false);
    }
  }

  private note(text: string, animal: Animal, isTag: boolean): void {
    const tag = canonicalTag(text);
    const key = isFault(tag) ? text : tag.key;
    if (isTag || !this.byKey.has(key)) this.byKey.set(key, animal);
    if (isTag) this.likes.set(likeKey(text), text);
  }

  /** The animal that a line names; `null` where it names none or two, which is then a problem. */
  take(line: AnimalLine): RowId | null {
    const tag = line.tag.trim() === '' ? null : this.read(line.tag);
    const electronic = line.electronic.trim() === '' ? null : this.read(line.electronic);
    if (tag !== null && isFault(tag)) return null;
    const number = electronic === null || isFault(electronic) ? null : electronic;
    const first = tag ?? number;
    if (first === null) return null;
    const byTag = tag && this.idOf(tag.key);
    const byNumber = number && this.idOf(number.key);
    if (byTag && byNumber && byTag !== byNumber) {
      this.say(
        line,
        'two-animals',
        'left out',
        `${line.tag} · ${line.electronic}`,
        say(
          'the tag {tag} and the electronic number {electronic} belong to two animals. The line is left out.',
          { tag: line.tag, electronic: line.electronic },
        ),
      );
      return null;
    }
    const id = byTag ?? byNumber ?? this.make(first, line);
    if (tag) this.idByKey.set(tag.key, id);
    if (number) this.idByKey.set(number.key, id);
    this.tell(id, line, number);
    return id;
  }

  private read(text: string): Tag | Fault {
    let tag = this.tags.get(text);
    if (!tag) this.tags.set(text, (tag = canonicalTag(text)));
    return tag;
  }

  private idOf(key: string): RowId | undefined {
    return this.idByKey.get(key) ?? this.byKey.get(key)?.id;
  }

  private make(tag: Tag, line: AnimalLine): RowId {
    const id = this.newId();
    const like = this.likes.get(likeKey(tag.typed));
    const warning = like === undefined ? null : likeTag(like, tag.typed);
    if (warning)
      this.say(
        line,
        warning.fault,
        'look',
        tag.typed,
        say('(the notebook has {like}) {sentence}', { like, sentence: warning.sentence }),
      );
    this.found.set(id, this.start(id, tag.typed.trim(), line.line, undefined));
    return id;
  }

  private start(id: RowId, tag: string, line: number, known: Animal | undefined): Found {
    return { id, tag, line, known, facts: {}, groups: new Map(), firstDate: '', said: new Set() };
  }

  private tell(id: RowId, line: AnimalLine, number: Tag | null): void {
    let found = this.found.get(id);
    if (!found) {
      const known = this.known.get(id);
      found = this.start(id, known?.tag ?? line.tag, line.line, known);
      this.found.set(id, found);
    }
    if (line.date !== '' && (found.firstDate === '' || line.date < found.firstDate))
      found.firstDate = line.date;
    if (number && number.key !== this.keyOf(found.tag))
      this.fact(found, line, 'electronic', number.electronic ?? line.electronic.trim());
    this.fact(found, line, 'name', line.name.trim());
    this.fact(found, line, 'born', line.born);
    this.kind(found, line);
    const group = line.group.trim();
    if (group !== '') found.groups.set(line.date, group);
  }

  private keyOf(tag: string): string {
    const read = this.read(tag);
    return isFault(read) ? tag : read.key;
  }

  private kind(found: Found, line: AnimalLine): void {
    const word = line.class.trim();
    const kind = word === '' ? null : classOfWord(word);
    if (word !== '' && kind === null && !found.said.has('class word')) {
      found.said.add('class word');
      this.say(
        line,
        'unknown-class',
        'left out',
        word,
        say(
          '"{word}" is no class of sheep or goats here (ewe, lamb, ram, wether, doe, kid, buck). The class is left out; the rest is taken.',
          { word },
        ),
      );
    }
    if (kind) this.fact(found, line, 'class', kind);
    const species = speciesOfWord(line.species) ?? (kind ? speciesOfClass(kind) : null);
    if (species) this.fact(found, line, 'species', species);
    else if (line.species.trim() !== '' && !found.said.has('species word')) {
      found.said.add('species word');
      this.say(
        line,
        'unknown-species',
        'left out',
        line.species,
        say('"{word}" is neither sheep nor goat. The species is left out; the rest is taken.', {
          word: line.species.trim(),
        }),
      );
    }
  }

  private fact(
    found: Found,
    line: AnimalLine,
    field: 'electronic' | 'name' | 'born' | 'class' | 'species',
    value: string,
  ): void {
    if (value === '') return;
    const held = found.facts[field] ?? found.known?.[field];
    if (held === undefined || held === '') {
      Object.assign(found.facts, { [field]: value as AnimalClass | Species });
    } else if (held !== value && !found.said.has(field)) {
      found.said.add(field);
      this.say(
        line,
        'other-fact',
        'left out',
        value,
        say(
          '{tag} has the {field, select, electronic {electronic number} name {name} born {date of birth} class {class} other {species}} {held} already; {value} is left out.',
          { tag: found.tag, field, held: factShown(field, held), value: factShown(field, value) },
        ),
      );
    }
  }

  private say(
    { line }: AnimalLine,
    kind: string,
    what: ImportProblem['what'],
    text: string,
    sentence: string,
  ): void {
    this.problems.push(atLine({ kind, what, line, text, sentence }));
  }

  /** All animals named, in the order of the list, and what there was to say of them. */
  done(listDay: string): {
    readonly animals: readonly PlannedAnimal[];
    readonly problems: readonly ImportProblem[];
  } {
    const days = daysOf(this.notebook);
    const usual = listDay === '' && days.length > 1 ? (days.at(-1)?.date ?? '') : listDay;
    const animals = [...this.found.values()].map((found): PlannedAnimal => {
      const since = found.firstDate || usual;
      const isLate = since !== '' && days.some(({ date }) => date < since);
      // An animal that comes with this list was not there on the days before it.
      const arrived = !found.known && isLate ? { arrived: since } : {};
      return {
        id: found.id,
        tag: found.tag,
        isNew: !found.known,
        line: found.line,
        facts: { ...found.facts, ...arrived },
        groups: this.moves(found, since || days[0]?.date || '1900-01-01'),
      };
    });
    return { animals, problems: this.problems };
  }

  /** The groups of a list by date, without those that are no news. */
  private moves({ id, known, groups }: Found, since: string): PlannedAnimal['groups'] {
    const dated = [...groups].map(([date, group]) => ({ date: date || since, group }));
    dated.sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
    let last: string | undefined;
    return dated.filter(({ date, group }) => {
      const before = last ?? (known ? groupOn(this.notebook, id, date) : undefined);
      last = group;
      return before !== group;
    });
  }
}

/** A fact of an animal in the language spoken; what a person named stays letter by letter. */
function factShown(field: string, value: string): string {
  if (field === 'born') return dateWords(value);
  return field === 'class' || field === 'species' ? classOrSpeciesShown(value) : value;
}
