package demo
import ("testing";"fmt";"context";"time";"strings";"os";"strconv";"wingproof/cmd/wingproof/internal/program";"wingproof/cmd/wingproof/internal/study")
func TestScratch(t *testing.T){ 
 seed:=uint64(1); if v:=os.Getenv("SEED");v!=""{ n,_:=strconv.Atoi(v); seed=uint64(n)}
 d:=t.TempDir()+"/p"; t0:=time.Now(); if err:=Write(context.Background(),d,d+"-truth.json",seed,nil);err!=nil{t.Fatal(err)}; fmt.Println("write",time.Since(t0)); t0=time.Now()
 p,err:=program.Load(d); if err!=nil{t.Fatal(err)}
 st,err:=study.Run(context.Background(),p,study.Options{Until:study.Judged}); if err!=nil{t.Fatal(err)}; fmt.Println("run",time.Since(t0))
 for _,f:=range st.Flights { kept:=0; kinds:=map[string]int{}; for _,q:=range f.Reduction.Points { if q.Kept{kept++; kinds[q.Kind]++} }; fmt.Println(f.Name,f.Used,f.Why,len(f.Reduction.Points),kept,kinds); for _,x:=range f.Reduction.Findings { fmt.Println("    ",x.Severity,x.Start,x.What,x.Consequence)} }
 for _,f:=range st.Fits { for _,r:=range []any{f.NeutralPoint,f.TrimmedLiftSlope,f.LiftSlope,f.ZeroLiftDrag,f.DragDueToLift} { _=r }
  pr:=func(n string,v,l,h *float64,s string,w []string){ g:=func(x *float64)string{ if x==nil{return "nil"}; return fmt.Sprintf("%.4f",*x)}; fmt.Println("  ",n,g(v),g(l),g(h),s,w)}
  fmt.Println(f.Configuration)
  pr("np",f.NeutralPoint.Value,f.NeutralPoint.Low,f.NeutralPoint.High,f.NeutralPoint.State,f.NeutralPoint.Warnings)
  pr("trim",f.TrimmedLiftSlope.Value,f.TrimmedLiftSlope.Low,f.TrimmedLiftSlope.High,f.TrimmedLiftSlope.State,f.TrimmedLiftSlope.Warnings)
  pr("cla",f.LiftSlope.Value,f.LiftSlope.Low,f.LiftSlope.High,f.LiftSlope.State,f.LiftSlope.Warnings)
  pr("cd0",f.ZeroLiftDrag.Value,f.ZeroLiftDrag.Low,f.ZeroLiftDrag.High,f.ZeroLiftDrag.State,f.ZeroLiftDrag.Warnings)
  pr("k",f.DragDueToLift.Value,f.DragDueToLift.Low,f.DragDueToLift.High,f.DragDueToLift.State,nil)
 }
 b,_:=os.ReadFile(d+"-truth.json"); fmt.Println(string(b))
 v:=st.Verdict; fmt.Println(v.Agreement)
 for _,c:=range v.Configurations { fmt.Println(c.Configuration,c.State,c.Live,c.AllHold); for _,l:=range c.Limits { fmt.Printf("    %s P %.4f median %.4g [%.4g %.4g] %s\n",l.Limit,l.Probability,l.Median,l.Low,l.High,l.Where)} }
 for _,l:=range v.Levels { fmt.Println(l)}
 for _,c:=range v.Choices { fmt.Println(c)}
 for _,r:=range v.Board { fmt.Printf("%s|%s|%s|%s|%s|%s\n   %s\n   clears: %s\n",r.Part,r.Side,r.Stage,r.Status,r.Action,r.Next,strings.Join(r.Reasons,"\n   "),r.Clears)}
 fmt.Println(v.Alarms)
}
