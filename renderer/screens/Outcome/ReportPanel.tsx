/** The scan tool's own report of each sensor: attached whole, with the tool's name and software. */
import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import { sensorsOf } from '../../../core/job/assess.ts';
import { type JobReport, type JobSensor, standingReport } from '../../../core/job/job.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import { fileAddress } from '../../api.ts';
import { keepReport } from '../../photos/keepFiles.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';

/** So many digits of a digest tell two files apart at a glance. */
const SHOWN_DIGITS = 12;

function Attach({ held, sensor }: { readonly held: HeldJob; readonly sensor: JobSensor }): ReactNode {
  const actions = useActions();
  const before = held.job.reports.at(-1);
  const [tool, setTool] = useState(before?.tool ?? '');
  const [software, setSoftware] = useState(before?.software ?? '');
  const [error, setError] = useState<CallError | undefined>(undefined);
  const named = tool.trim() !== '' && software.trim() !== '';
  const attach = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const report = { file, sensor: sensor.sensor, tool: tool.trim(), software: software.trim() };
    setError(await keepReport(actions, held.job.id, report));
  };
  return (
    <>
      <p className="quiet">{say('report.none')}</p>
      <div className="form-grid">
        <TextEntry label={say('report.tool')} value={tool} mark="none" onChange={setTool} />
        <TextEntry label={say('report.software')} value={software} mark="none" onChange={setSoftware} />
      </div>
      <div className="choices">
        <FileTrigger
          acceptedFileTypes={['application/pdf', 'image/jpeg', 'image/png']}
          onSelect={(files) => void attach(files?.[0])}
        >
          <Button icon="document" disabled={!named}>
            {say('report.attach')}
          </Button>
        </FileTrigger>
      </div>
      {error === undefined ? null : <ErrorNotice error={error} />}
    </>
  );
}

/** The report itself: a PDF in Chromium's own view, as certificates are shown; a picture as it is. */
function ReportFile({ report }: { readonly report: JobReport }): ReactNode {
  const address = fileAddress(report.digest);
  const title = say('report.frame', { tool: report.tool });
  return report.mediaType === 'application/pdf' ? (
    <iframe
      className="report-file"
      data-testid="report-file"
      title={title}
      src={`${address}#toolbar=0&navpanes=0&view=FitH`}
    />
  ) : (
    <img className="report-picture" data-testid="report-file" src={address} alt={title} />
  );
}

function SensorReport({ held, sensor }: { readonly held: HeldJob; readonly sensor: JobSensor }): ReactNode {
  const actions = useActions();
  const report = standingReport(held.job, sensor.sensor);
  const [open, setOpen] = useState(false);
  return (
    <section className="sheet form-group" data-testid="report" data-sensor={sensor.sensor}>
      <h2 className="overline">{`${say('report.title')}: ${sensor.name}`}</h2>
      {report === undefined ? (
        <Attach held={held} sensor={sensor} />
      ) : (
        <div className="report-line">
          <span data-testid="report-attached">
            {say('report.attached', {
              tool: report.tool,
              software: report.software,
              digest: report.digest.slice(0, SHOWN_DIGITS),
            })}
          </span>
          <Button icon={open ? 'close' : 'document'} testId="report-open" onPress={() => setOpen(!open)}>
            {say(open ? 'report.close' : 'report.open')}
          </Button>
          <Button
            weight="quiet"
            icon="strike"
            onPress={() =>
              void actions.record(held.job.id, [
                { type: 'reportStruck', v: 1, payload: { report: report.report } },
              ])
            }
          >
            {say('report.strike')}
          </Button>
        </div>
      )}
      {report !== undefined && open ? <ReportFile report={report} /> : null}
    </section>
  );
}

export function ReportPanels({ held }: { readonly held: HeldJob }): ReactNode {
  return sensorsOf(held.job, stageById('outcome')).map((sensor) => (
    <SensorReport key={sensor.sensor} held={held} sensor={sensor} />
  ));
}
