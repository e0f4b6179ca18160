package rules

// A plan and an order write themselves, field by field in the order of their types. A field that is added to a type needs its line here; a
// test that fills every field shows one that was forgotten.

// MarshalJSON writes the plan, its empty lists as [].
func (p Plan) MarshalJSON() ([]byte, error) { return p.AppendJSON(nil) }

// AppendJSON writes the plan behind b, as MarshalJSON does. The error is that of a number that JSON cannot write.
func (p Plan) AppendJSON(b []byte) ([]byte, error) {
	return written(b, func(w *pen) {
		w.raw(`{"lines":`)
		penList(w, p.Lines, func(w *pen, l LinePlan) {
			w.raw(`{"prints":`)
			penList(w, l.Prints, penPrintPlan)
			w.raw("}")
		})
		w.raw(`,"migration":`)
		penList(w, p.Migration, penMigration)
		w.raw(`,"cautions":`)
		penList(w, p.Cautions, penCaution)
		w.raw(`,"summary":`)
		w.text(p.Summary)
		w.raw(`,"checklist":`)
		penList(w, p.Checklist, penCheck)
		w.raw(`,"wash_test":`)
		w.truth(p.WashTest)
		w.raw(`,"test_print":`)
		w.truth(p.TestPrint)
		w.raw(`,"questions":`)
		penList(w, p.Questions, penQuestion)
		w.raw(`,"assumptions":`)
		penList(w, p.Assumptions, penAssumption)
		w.raw(`,"inspection":`)
		penList(w, p.Inspection, func(w *pen, i Inspection) { w.value(i) })
		w.raw(`,"schedule":`)
		if p.Schedule == nil {
			w.raw("null")
		} else {
			penSchedule(w, *p.Schedule)
		}
		w.raw("}")
	})
}

func penPrintPlan(w *pen, p PrintPlan) {
	w.raw(`{"pick":`)
	w.word(string(p.Pick))
	w.raw(`,"choices":`)
	penList(w, p.Choices, penChoice)
	w.raw("}")
}

func penChoice(w *pen, c Choice) {
	w.raw(`{"method":`)
	w.word(string(c.Method))
	w.raw(`,"verdict":`)
	w.text(string(c.Verdict))
	w.raw(`,"score":`)
	w.number(c.Score)
	w.raw(`,"why":`)
	penList(w, c.Why, penReason)
	w.raw(`,"setup":{"base":`)
	w.text(string(c.Setup.Base))
	w.raw(`,"additives":`)
	penWords(w, c.Setup.Additives)
	w.raw(`,"heat":`)
	if h := c.Setup.Heat; h == nil {
		w.raw("null")
	} else {
		w.raw(`{"temp_c":`)
		penList(w, h.TempC[:], (*pen).number)
		w.raw(`,"seconds":`)
		penList(w, h.Seconds[:], (*pen).number)
		w.raw("}")
	}
	w.raw(`,"screen":`)
	if s := c.Setup.Screen; s == nil {
		w.raw("null")
	} else {
		penScreen(w, *s)
	}
	w.raw(`},"expect":{"vividness":`)
	w.number(c.Expect.Vividness)
	w.raw(`},"effort":`)
	if e := c.Effort; e == nil {
		w.raw("null")
	} else {
		penEffort(w, *e)
	}
	w.raw("}")
}

func penReason(w *pen, r Reason) {
	w.raw(`{"rule":`)
	w.text(r.Rule)
	w.raw(`,"text":`)
	w.text(r.Text)
	w.raw(`,"basis":`)
	w.text(r.Basis)
	if r.Points != 0 {
		w.raw(`,"points":`)
		w.number(r.Points)
	}
	if r.Veto {
		w.raw(`,"veto":true`)
	}
	w.raw("}")
}

func penScreen(w *pen, s ScreenSetup) {
	w.raw(`{"mesh_per_cm":`)
	penList(w, s.MeshCM[:], (*pen).integer)
	w.raw(`,"mesh_per_inch":`)
	penList(w, s.MeshInch[:], (*pen).integer)
	w.raw(`,"base_mesh_per_cm":`)
	w.integer(s.BaseCM)
	w.raw(`,"screens":`)
	w.integer(s.Screens)
	w.raw(`,"passes":`)
	w.integer(s.Passes)
	w.raw(`,"flashes":`)
	w.integer(s.Flashes)
	w.raw(`,"heads":`)
	w.integer(s.Heads)
	w.raw(`,"ink_grams":`)
	w.number(s.InkGrams)
	w.raw("}")
}

func penEffort(w *pen, e Effort) {
	w.raw(`{"setup_minutes":`)
	w.number(e.SetupMinutes)
	w.raw(`,"seconds_each":`)
	w.number(e.SecondsEach)
	w.raw(`,"overtaken":`)
	if x := e.Overtaken; x == nil {
		w.raw("null")
	} else {
		w.raw(`{"by":`)
		w.word(string(x.By))
		w.raw(`,"quantity":`)
		w.integer(x.Quantity)
		w.raw("}")
	}
	w.raw("}")
}

func penMigration(w *pen, m Migration) {
	w.raw(`{"risk":`)
	w.text(string(m.Risk))
	w.raw(`,"after":`)
	w.text(string(m.After))
	w.raw(`,"change":`)
	w.number(m.Change)
	w.raw(`,"after_change":`)
	w.number(m.AfterChange)
	w.raw("}")
}

func penCaution(w *pen, c Caution) {
	w.raw(`{"code":`)
	w.text(c.Code)
	w.raw(`,"severity":`)
	w.text(string(c.Severity))
	w.raw(`,"text":`)
	w.text(c.Text)
	w.raw(`,"basis":`)
	w.text(c.Basis)
	w.raw("}")
}

func penCheck(w *pen, c Check) {
	w.raw(`{"code":`)
	w.text(c.Code)
	w.raw(`,"title":`)
	w.text(c.Title)
	w.raw(`,"how":`)
	w.text(c.How)
	w.raw(`,"pass":`)
	w.text(c.Pass)
	w.raw(`,"wait_hours":`)
	w.number(c.WaitHours)
	if c.Scale != "" {
		w.raw(`,"scale":`)
		w.text(string(c.Scale))
	}
	if c.Least != "" {
		w.raw(`,"least":`)
		w.text(string(c.Least))
	}
	w.raw("}")
}

func penQuestion(w *pen, q Question) {
	w.raw(`{"field":`)
	w.text(q.Field)
	w.raw(`,"text":`)
	w.text(q.Text)
	w.raw(`,"quick":`)
	penWords(w, q.Quick)
	w.raw("}")
}

func penAssumption(w *pen, a Assumption) {
	w.raw(`{"field":`)
	w.text(a.Field)
	w.raw(`,"value":`)
	w.text(a.Value)
	w.raw(`,"text":`)
	w.text(a.Text)
	w.raw("}")
}

func penSchedule(w *pen, s Schedule) {
	w.raw(`{"due":`)
	w.word(string(s.Due))
	w.raw(`,"run_starts":`)
	w.word(string(s.RunStarts))
	w.raw(`,"last_test":`)
	w.word(string(s.LastTest))
	w.raw(`,"run_days":`)
	w.integer(s.RunDays)
	w.raw(`,"test_days":`)
	w.integer(s.TestDays)
	w.raw(`,"can_be_met":`)
	w.truth(s.CanBeMet)
	w.raw("}")
}
