// The first start: pair with the logbook, or work by files.
import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { text } from '../../text/index.ts';
import { useField } from '../context.ts';
import { useForm } from '../form.ts';
import { Act } from '../parts/Act.tsx';
import { TextField } from '../parts/Field.tsx';
import { Frame } from '../parts/Frame.tsx';
import { go, goInstead } from '../way.ts';
import { TakeIn } from './Files.tsx';
import { Secure, Storage } from './Health.tsx';

const { welcome, pair, files } = text.phone;

export function Welcome(): JSX.Element {
  return (
    <Frame
      title={welcome.title}
      lead={welcome.lead}
      beside={null}
      foot={
        <>
          <Act looks="large full" under={welcome.pairUnder} onTouch={() => go('pair')}>
            {welcome.pair}
          </Act>
          <Act looks="large" under={welcome.filesUnder} onTouch={() => go('files')}>
            {welcome.files}
          </Act>
        </>
      }
    >
      <Secure />
      <Storage />
    </Frame>
  );
}

export function Pair({ about }: Readonly<{ about: Readonly<Record<string, string>> }>): JSX.Element {
  const { engine, state } = useField();
  const { phone } = state;
  const form = useForm('pair', {
    code: about.code ?? '',
    personName: phone.personName ?? '',
    label: phone.label,
  });
  const [refusal, setRefusal] = useState<string | undefined>(undefined);
  const { code } = about;
  useEffect(() => {
    // A code is good once: it does not stay in the address.
    if (code === undefined || !form.ready) return;
    form.set('code', code);
    goInstead('pair');
  }, [code, form.ready]);
  const send = async () => {
    const missing = [
      form.text('code') === '' && !state.thisMachine
        ? { field: 'code', value: '', remedy: pair.needsCode }
        : undefined,
      ...whoIsMissing(form.text('personName'), form.text('label')),
    ].filter((problem) => problem !== undefined);
    form.refuse(missing);
    setRefusal(undefined);
    if (missing.length > 0) return;
    const done = await engine.pair({
      code: form.text('code').trim(),
      personName: form.text('personName').trim(),
      label: form.text('label').trim(),
    });
    if (!done.ok) {
      setRefusal(done.why);
      return;
    }
    await engine.keepDraft('pair', undefined);
    go('today');
  };
  // Nothing was ever recorded or taken in here: a new phone, or one whose storage was cleared.
  const beginsAnew = phone.logbook === undefined && state.outbox.waiting === 0;
  return (
    <Frame
      title={pair.title}
      lead={beginsAnew ? pair.anew : undefined}
      form={form}
      foot={
        <>
          {refusal !== undefined && (
            <p class="trouble" role="alert">
              {pair.refused(refusal)}
            </p>
          )}
          <Act looks="large full" disabled={form.busy} onTouch={() => void send()}>
            {pair.go}
          </Act>
        </>
      }
    >
      <TextField
        form={form}
        name="code"
        label={pair.code}
        hint={state.thisMachine ? pair.codeHintHere : pair.codeHint}
      />
      <TextField form={form} name="personName" label={pair.name} hint={pair.nameHint} />
      <TextField form={form} name="label" label={pair.label} hint={pair.labelHint} />
      <Secure />
    </Frame>
  );
}

function whoIsMissing(name: string, label: string) {
  return [
    name.trim() === '' ? { field: 'personName', value: '', remedy: pair.needsName } : undefined,
    label.trim() === '' ? { field: 'label', value: '', remedy: pair.needsLabel } : undefined,
  ];
}

export function ByFiles(): JSX.Element {
  const { engine, state } = useField();
  const form = useForm('files', { personName: state.phone.personName ?? '', label: state.phone.label });
  const begin = async () => {
    const missing = whoIsMissing(form.text('personName'), form.text('label')).filter(
      (problem) => problem !== undefined,
    );
    form.refuse(missing);
    if (missing.length > 0) return;
    const done = await engine.introduce(form.text('personName').trim(), form.text('label').trim());
    if (!done.ok) {
      form.refuse([{ field: 'personName', value: form.text('personName'), remedy: done.why }]);
      return;
    }
    await engine.keepDraft('files', undefined);
    go('today');
  };
  return (
    <Frame
      title={files.title}
      lead={files.lead}
      form={form}
      foot={
        <Act looks="large full" disabled={form.busy} onTouch={() => void begin()}>
          {files.go}
        </Act>
      }
    >
      <TakeIn />
      <TextField form={form} name="personName" label={pair.name} hint={pair.nameHint} />
      <TextField form={form} name="label" label={pair.label} hint={pair.labelHint} />
    </Frame>
  );
}
