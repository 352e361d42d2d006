import type { Engine } from '../shared/derived.ts';
import type { AnimalClass, Criterion, Notebook, Species } from '../shared/notebook.ts';
import { READY_SAID_BY, type ReadySet } from '../src/treating/ready-criteria.ts';
import { toShown, toStored } from '../src/engine/stored-formula.ts';
import { say } from '../src/text/say.ts';

/** A criterion as it is edited: its condition in current names. */
export interface CriterionDraft {
  readonly id: string;
  readonly reason: string;
  readonly shown: string;
  readonly ready?: 'too-many';
  readonly species: Species | '';
  readonly classes: readonly AnimalClass[];
  readonly mustBeKnown: boolean;
  readonly saidBy: string;
  readonly confirmed: boolean;
}

/** Criteria as drafts, the most dangerous first. */
export function draftsOf(
  notebook: Notebook,
  criteria: readonly Criterion[],
): readonly CriterionDraft[] {
  return [...criteria]
    .sort((a, b) => b.danger - a.danger)
    .map((criterion) => ({
      id: criterion.id,
      reason: criterion.reason,
      shown: toShown(notebook, criterion.condition),
      ...(criterion.ready ? { ready: criterion.ready } : {}),
      species: criterion.species ?? '',
      classes: criterion.classes ?? [],
      mustBeKnown: criterion.mustBeKnown,
      saidBy: criterion.saidBy ?? '',
      confirmed: criterion.confirmed === true,
    }));
}

/** Why a draft cannot stand, or null. */
export function draftFault(engine: Engine, draft: CriterionDraft): string | null {
  if (draft.reason.trim() === '') return say('Give the reason in words: it stands in the list.');
  if (draft.ready) return null;
  if (draft.shown.trim() === '') return say('Type a condition, like eyelid >= 4.');
  return engine.check(draft.shown.trim(), 'criterion')?.sentence ?? null;
}

/** Drafts as criteria; their order is the order of danger. */
export function criteriaOf(
  notebook: Notebook,
  drafts: readonly CriterionDraft[],
): readonly Criterion[] {
  return drafts.map((draft, at) => ({
    id: draft.id,
    reason: draft.reason.trim(),
    condition: draft.ready ? '' : toStored(notebook, draft.shown.trim()),
    ...(draft.ready ? { ready: draft.ready } : {}),
    ...(draft.species === '' ? {} : { species: draft.species }),
    ...(draft.classes.length === 0 ? {} : { classes: draft.classes }),
    mustBeKnown: draft.mustBeKnown,
    danger: (drafts.length - at) * 10,
    ...(draft.saidBy.trim() === '' ? {} : { saidBy: draft.saidBy.trim() }),
    confirmed: draft.confirmed,
  }));
}

/** A ready set as drafts, and what of it this notebook has no column or limit for. */
export function readyDrafts(
  engine: Engine,
  set: ReadySet,
  newId: () => string,
): { readonly drafts: readonly CriterionDraft[]; readonly leftOut: readonly string[] } {
  const all = set.criteria.map((one): CriterionDraft => ({
    id: newId(),
    reason: one.reason,
    shown: one.condition,
    ...(one.ready ? { ready: one.ready } : {}),
    species: '',
    classes: one.classes ?? [],
    mustBeKnown: one.mustBeKnown ?? false,
    saidBy: READY_SAID_BY,
    confirmed: false,
  }));
  const isFit = (draft: CriterionDraft): boolean => draftFault(engine, draft) === null;
  return {
    drafts: all.filter(isFit),
    leftOut: all.filter((draft) => !isFit(draft)).map(({ reason }) => reason),
  };
}
