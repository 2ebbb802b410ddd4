namespace StoreMap.Surveys;

/// <summary>Checks that starts, pauses, resumes and ends of walks follow one another.</summary>
internal static class MarkOrder
{
    public static void Check(IReadOnlyList<LogMark> marks, SurveyProblems problems)
    {
        LogMark? start = null, pause = null;
        foreach (var mark in marks)
        {
            switch (mark.Event)
            {
                case MarkEvent.Start when start is not null:
                    Error(mark, $"A walk begins here, but the one begun in {start.Element} has no end. Add its end.");
                    break;
                case MarkEvent.End when start is null:
                    Error(mark, "A walk ends here that never began. Add its start.");
                    break;
                case MarkEvent.Pause when start is null || pause is not null:
                    Error(mark, "A pause needs a walk that is going on.");
                    break;
                case MarkEvent.Resume when pause is null:
                    Error(mark, "A resume needs a pause before it.");
                    break;
                case MarkEvent.At or MarkEvent.End when pause is not null:
                    Error(mark, $"The walk is still paused since {pause.Element}. Add the resume.");
                    break;
            }

            if (mark.Event == MarkEvent.Start) start = mark;
            if (mark.Event == MarkEvent.End) start = null;
            if (mark.Event == MarkEvent.Pause) pause = mark;
            if (mark.Event is MarkEvent.Resume or MarkEvent.End or MarkEvent.Start) pause = null;
        }

        if (start is not null) Error(start, "The walk begun here has no end. Add its end.");

        void Error(LogMark mark, string message) =>
            problems.Error(mark.Element, "event", mark.Event.ToString().ToLowerInvariant(), "mark-order", message);
    }
}
