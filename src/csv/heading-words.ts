import { plainWord } from '../text/typed-words.ts';

/** What a column of a list can be, so far as its heading alone tells. */
export type HeadingMeaning =
  | 'tag'
  | 'electronic'
  | 'name'
  | 'group'
  | 'class'
  | 'species'
  | 'born'
  | 'date'
  | 'label'
  | 'time'
  | 'cup'
  | 'weight'
  | 'count'
  | 'epg'
  | 'note';

/**
 * Headings met in lists of sheep and goats, in small letters without punctuation; found with or without accents
 * where they are written without. Common practice, no source; the usual ones of Spanish and a few of
 * German and French, since lists come from anywhere. Of two columns
 * that both look like the tag, the one whose word stands earlier here is it. Words that are often
 * found in cells (`ewe`, `no`) are left out.
 */
const words: Readonly<Record<HeadingMeaning, readonly string[]>> = {
  tag: (
    'tag,ear tag,eartag,tag no,tag number,tag id,tag nr,visual tag,visual id,vid,ear tag no,ear tag number,' +
    'animal tag,animal id,animal no,animal number,animal,id,id no,id number,ident,sheep id,goat id,' +
    'ohrmarke,ohrmarkennummer,tiernummer,boucle,numéro,arete,numero de arete,no de arete,n de arete,nº de arete,n º de arete,nº arete,n º arete,arete no,' +
    'crotal,numero de crotal,caravana,identificacion,identificacion del animal,numero de animal,id animal,' +
    'animal numero,numero,number'
  ).split(','),
  electronic:
    'eid,e id,electronic,electronic id,electronic number,electronic tag,eid tag,rfid,rfid tag,transponder,chip,microchip,numero electronico,arete electronico,crotal electronico,identificacion electronica,bolo'.split(
      ',',
    ),
  name: 'name,animal name,pet name,nom,nombre,nombre del animal'.split(','),
  group:
    'group,mob,pen,lot,flock,herd,management group,gruppe,lote,grupo,rebaño,hato,corral,majada'.split(
      ',',
    ),
  class: 'class,category,stock class,type,clase,categoria,tipo'.split(','),
  species: ['species', 'kind', 'tierart', 'espèce', 'especie'],
  born: 'born,birth date,birthdate,date of birth,dob,birthday,birth,geboren,fecha de nacimiento,nacimiento,nacido,nacida'.split(
    ',',
  ),
  date: 'date,day,sampled,sampling date,sample date,sampled on,date sampled,date time,datetime,timestamp,weigh date,datum,fecha,dia,fecha de muestreo,fecha de la muestra,fecha de muestra,dia de muestreo,muestreado,fecha de pesaje'.split(
    ',',
  ),
  label: ['day label', 'label', 'sampling', 'muestreo', 'etiqueta del dia'],
  time: ['time', 'time of day', 'uhrzeit', 'heure', 'hora'],
  cup: 'cup,cup no,cup number,pot,pot no,vial,sample,sample no,sample number,sample id,vaso,numero de vaso,vaso no,muestra,numero de muestra,muestra no,bote,frasco'.split(
    ',',
  ),
  weight:
    'weight,wt,kg,kgs,lb,lbs,live weight,liveweight,body weight,bodyweight,scale weight,gewicht,poids,peso,peso vivo,peso corporal,kilos'.split(
      ',',
    ),
  count:
    'count,counts,eggs,egg count,eggs counted,total eggs,raw count,n,eier,oeufs,huevos,recuento,recuentos,recuento de huevos,conteo,conteo de huevos,huevos contados,numero de huevos'.split(
      ',',
    ),
  epg: 'epg,fec,fec epg,eggs per gram,eggs per g,faecal egg count,fecal egg count,wec,worm egg count,hpg,huevos por gramo,huevos por g,opg,hpg huevos por gramo'.split(
    ',',
  ),
  note: 'note,notes,comment,comments,remark,remarks,bemerkung,remarque,nota,notas,observacion,observaciones,comentario,comentarios'.split(
    ',',
  ),
};

const meanings = new Map(
  (Object.entries(words) as [HeadingMeaning, readonly string[]][]).flatMap(([meaning, list]) =>
    list.map((word, rank) => [word, { meaning, rank }] as const),
  ),
);

/** A heading in small letters, without punctuation, hidden characters and runs of spaces. */
export function plainHeading(heading: string): string {
  return heading
    .normalize('NFC')
    .replace(/[\u00ad\u200b-\u200f\u2060\ufeff]/g, '')
    .toLowerCase()
    .replace(/[\s._:;#°*/()[\]-]+/g, ' ')
    .trim();
}

/** What a heading says by itself; `rank` 0 is the plainest word for it. `null` for an unknown one. */
export function headingMeaning(
  heading: string,
): { readonly meaning: HeadingMeaning; readonly rank: number } | null {
  const plain = plainHeading(heading);
  const bare = withoutUnit(plain);
  return (
    meanings.get(plain) ?? meanings.get(plainWord(plain)) ?? meanings.get(plainWord(bare)) ?? null
  );
}

/** The unit of weight that a heading names. */
export function headingUnit(heading: string): 'kg' | 'lb' | null {
  const plain = ` ${plainHeading(heading)} `;
  if (/ (?:kg|kgs|kilo|kilos|kilograms?|kilogramos?) /.test(plain)) return 'kg';
  return / (?:lb|lbs|pounds?|libras?) /.test(plain) ? 'lb' : null;
}

function withoutUnit(plain: string): string {
  return plain.replace(
    / (?:kg|kgs|lb|lbs|kilograms?|pounds?|in kg|in lb|en kg|en lb|kilos?|kilogramos?|libras?)$/,
    '',
  );
}
